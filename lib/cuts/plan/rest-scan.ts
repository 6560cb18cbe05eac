import { partsOfABar } from "@/lib/score/silent-bars";
import type { Cluster } from "./find-clusters";
import { type KeptRest, mostOfBoth, nothingKept } from "./kept-rests";
import type { Ground, GroundCut } from "./plan-ground";
import { addFlows, type Flow, isTooShort } from "./rest-flow";
import { findThresholds, noThresholds, reachesAll, reachThreshold, type Thresholds } from "./rest-thresholds";
import { restsTouching, silenceStart } from "./rests-touching";
import {
  findNotes,
  type KeptRests,
  keptTouching,
  leaveOutAlike,
  placeInStage,
  readStage,
  type ScanStage,
  type StageCut,
} from "./scan-stage";

/**
 * What is known of the soloist's silence while a cluster is read from left to right, in eight numbers for each stage:
 *
 * 0 the place on the clock (milliseconds) at which the silence seems to begin, moved on by what has been cut out of it;
 *   `settled` when a note has been played since the last cut, so that the page alone tells; `enough` when it has
 *   lasted as long as any rest of the cluster must
 * 1 the same in parts of a bar
 * 2, 3 what has to be left of this silence
 * 4, 5, 6, 7 the same silence up to the first note of the stage, kept for the jump before it; 4 is `settled` while no
 *   note has been played
 *
 * Where a rest is watched (see `WatchedRest`) nothing goes over a jump: 5 is 1 in the silence that is watched, and 6 what
 * was missing of it when it ended.
 */
export type ScanState = readonly number[];

/** The state that was found last: most are compared with others once, and never kept. */
export const passingState: number[] = [0, 0, 0, 0, 0, 0, 0, 0];

const width = 8;
const settled = -1;
const enough = -2;

/** A rest of which it is told how much of it is missing, instead of giving up what leaves too little. */
export interface WatchedRest {
  /** Of the reading's list. */
  readonly silence: number;
  readonly unit: keyof KeptRest;
  /** No more than there is when nothing is cut. */
  readonly asked: number;
}

/** Follows what sets of cuts leave of the soloist's rests. Exact for any cuts: also those that take solo music. */
export class RestScan {
  readonly stages: readonly ScanStage[];
  /** The most that any rest of the cluster must last. */
  private readonly most: KeptRest;
  /** Stages by the places at which a note may end a silence. */
  readonly notes: ReadonlyMap<number, readonly number[]>;
  /** All places at which something happens, in order. */
  readonly places: readonly number[];
  /** Places at which the soloist plays for all states alike, and whether a needed rest ends there. */
  private readonly settledAt: ReadonlyMap<number, { readonly endsNeed: boolean }>;
  /** What silences have to be told apart by; null where rests go over a jump. */
  private readonly thresholds: { readonly clock: PlaceThresholds; readonly bars: PlaceThresholds } | null;

  /** The stage, when there is one alone and no rest goes over the jump before it. */
  private readonly followed: ScanStage | null;

  private readonly enoughState: ScanState = [enough, 0, 0, 0, 0, 0, 0, 0];

  private readonly nothingMissing: ScanState = [settled, 0, 0, 0, 0, 0, 0, 0];

  constructor(
    private readonly ground: Ground,
    cluster: Cluster,
    private readonly kept: KeptRests,
    private readonly watched: WatchedRest | null = null,
  ) {
    const asked = [...cluster.silences].map((silence) => kept.get(silence) ?? nothingKept);
    const most = asked.reduce(mostOfBoth, nothingKept);
    this.most = watched ? mostOfBoth(most, { ...nothingKept, [watched.unit]: watched.asked }) : most;
    const isAsked = this.most.milliseconds > 0 || this.most.barParts > 0;
    const stages = isAsked ? leaveOutAlike(ground, kept, cluster.stages) : [];
    this.stages = stages.map((stage) => readStage(ground, kept, stage, cluster.cuts));
    this.notes = findNotes(this.stages, cluster.cuts);
    const ends = cluster.cuts.flatMap(({ from, to }) => [from, to]);
    // Where nothing is asked of any rest, every note is as good a place as any other to sum up at.
    const all = isAsked
      ? this.notes
      : findNotes(
          cluster.stages.map((stage) => readStage(ground, kept, stage, cluster.cuts)),
          cluster.cuts,
        );
    this.places = [...new Set([...ends, ...all.keys()])].sort((a, b) => a - b);
    const [only, ...others] = this.stages;
    this.followed = only && others.length === 0 && !only.opensLeft ? only : null;
    const isClosed = others.length === 0 && !only?.opensLeft && !only?.opensRight;
    this.settledAt = new Map(
      isClosed ? [...all.keys()].map((place) => [place, { endsNeed: this.endsNeed(place) }]) : [],
    );
    this.thresholds = only && isClosed ? this.findStageThresholds(only, cluster.cuts, asked) : null;
  }

  private endsNeed(place: number): boolean {
    return this.stages.some(({ groundRun }) =>
      restsTouching(groundRun, place, place).some(
        ({ silence, to }) => to === place && this.kept.has(silence),
      ),
    );
  }

  private findStageThresholds(stage: ScanStage, cuts: readonly GroundCut[], asked: readonly KeptRest[]) {
    const landings = new Map<number, Set<number>>();
    for (const { from, to } of cuts) {
      const known = landings.get(from);
      if (known) known.add(to);
      else landings.set(from, new Set([to]));
    }
    const find = (
      unit: keyof KeptRest,
      measure: (place: number) => number,
      room: number,
    ): PlaceThresholds => {
      const places = this.places.map((place) => {
        const clock = measure(placeInStage(stage, place));
        return { place, clock, hasNote: this.notes.has(place), landings: [...(landings.get(place) ?? [])] };
      });
      const amounts = asked.map((amount) => [amount[unit], amount[unit]] as const);
      // What is missing of a rest that is watched differs with each of its lengths.
      if (this.watched?.unit === unit) amounts.push([1, this.watched.asked]);
      return findThresholds(places, measure(stage.to), amounts, room);
    };
    return {
      clock: find("milliseconds", (place) => this.clock(place), roomMilliseconds),
      bars: find("barParts", (place) => this.bars(place), roomBarParts),
    };
  }

  /** Whether it tells how much is missing of the rest that is watched. */
  get canWatch(): boolean {
    return this.thresholds !== null;
  }

  private clock(place: number): number {
    return this.ground.milliseconds[place] ?? 0;
  }

  private bars(place: number): number {
    return this.ground.barParts[place] ?? 0;
  }

  start(): ScanState {
    return this.stages.flatMap((stage) =>
      stage.opensLeft
        ? [this.clock(stage.from), this.bars(stage.from), 0, 0, settled, 0, 0, 0]
        : [settled, 0, 0, 0, 0, 0, 0, 0],
    );
  }

  /** What one more cut makes of a state; null when too little rest is left, whatever follows. */
  afterCut(state: ScanState, cut: GroundCut): ScanState | null {
    if (this.stages.length === 0) return state;
    const next = [...state];
    for (const [index, stage] of this.stages.entries()) {
      const here = stage.byCut.get(cut.index);
      if (!here) continue;
      const at = index * width;
      if (state[at] === enough) continue;
      const isSettled = state[at] === settled;
      const [start, barStart] = isSettled
        ? [this.clock(here.pageStart), this.bars(here.pageStart)]
        : [state[at] ?? 0, state[at + 1] ?? 0];
      const isLead = stage.opensLeft && state[at + 4] === settled;
      if (!isLead && this.isEnough(this.clock(here.from) - start, this.bars(here.from) - barStart)) {
        next.splice(at, 4, enough, 0, 0, 0);
        continue;
      }
      next[at] = start + here.milliseconds;
      next[at + 1] = barStart + here.barParts;
      next[at + 2] = Math.max(state[at + 2] ?? 0, here.kept.milliseconds);
      next[at + 3] = Math.max(state[at + 3] ?? 0, here.kept.barParts);
      if (this.isHopeless(stage, next, at)) return null;
    }
    return next;
  }

  private isEnough(milliseconds: number, barParts: number): boolean {
    return milliseconds >= this.most.milliseconds && barParts >= this.most.barParts;
  }

  /**
   * What has become of a state when a place is reached. A silence that has lasted long enough for anything, or for the
   * same as a shorter one, need not be told apart from others any more: it is taken for the shortest that is as good.
   */
  at(state: ScanState, place: number): ScanState {
    const stage = this.followed;
    if (!stage || (state[0] as number) < 0) return state;
    const here = placeInStage(stage, place);
    return this.shorten(state, place, this.clock(here), this.bars(here));
  }

  /** @param into where the answer is put when it is another one than `state`; an array of its own unless told. */
  private shorten(
    state: ScanState,
    place: number,
    clock: number,
    bars: number,
    into: number[] | null = null,
  ): ScanState {
    const [lasts, barParts] = [clock - (state[0] as number), bars - (state[1] as number)];
    if (this.isEnough(lasts, barParts)) return this.enoughAfter(state);
    if (!this.thresholds) return state;
    const time = this.thresholds.clock.get(place) ?? noThresholds;
    const count = this.thresholds.bars.get(place) ?? noThresholds;
    const inTime = reachThreshold(time, lasts);
    const inBars = reachThreshold(count, barParts);
    if (reachesAll(time, inTime) && reachesAll(count, inBars)) return this.enoughAfter(state);
    if (inTime === lasts && inBars === barParts) return state;
    const next = into ?? [...state];
    next[0] = clock - inTime;
    next[1] = bars - inBars;
    return next;
  }

  private enoughAfter(state: ScanState): ScanState {
    return state[6] === 0 ? this.enoughState : [enough, 0, 0, 0, 0, 0, state[6] as number, 0];
  }

  /**
   * What a cut that lands at a place makes of states; null when too little rest is left, whatever follows. The answer may be
   * `passingState`, which holds until the next answer: whoever keeps it makes a copy.
   */
  landing(cut: GroundCut, place: number): (state: ScanState) => ScanState | null {
    const stage = this.followed;
    const here = stage?.byCut.get(cut.index);
    if (!stage || !here) {
      return (state) => {
        const next = this.afterCut(state, cut);
        return next && this.at(next, place);
      };
    }
    const at = placeInStage(stage, place);
    const isWatched = this.isWatched(stage, here.from, here.to);
    const land = this.landHere(stage, here, isWatched);
    const [clock, bars] = [this.clock(at), this.bars(at)];
    return (state) => {
      const next = land(state);
      return next === passingState ? this.shorten(passingState, place, clock, bars, passingState) : next;
    };
  }

  /** `afterCut` where a single stage is followed. */
  private landHere(stage: ScanStage, here: StageCut, isWatched: boolean) {
    const [pageStart, pageBarStart] = [this.clock(here.pageStart), this.bars(here.pageStart)];
    const [from, barFrom] = [this.clock(here.from), this.bars(here.from)];
    return (state: ScanState): ScanState | null => {
      if (state[0] === enough) return state;
      const isSettled = state[0] === settled;
      const start = isSettled ? pageStart : (state[0] as number);
      const barStart = isSettled ? pageBarStart : (state[1] as number);
      if (this.isEnough(from - start, barFrom - barStart)) return this.enoughAfter(state);
      passingState[0] = start + here.milliseconds;
      passingState[1] = barStart + here.barParts;
      passingState[2] = Math.max(state[2] as number, here.kept.milliseconds);
      passingState[3] = Math.max(state[3] as number, here.kept.barParts);
      passingState[5] = isWatched ? 1 : (state[5] as number);
      passingState[6] = state[6] as number;
      return this.isHopeless(stage, passingState, 0) ? null : passingState;
    };
  }

  /** Even all that follows in the stage, were it silent, would not make up for what is cut. */
  private isHopeless(stage: ScanStage, state: ScanState, at: number): boolean {
    if (stage.opensRight || state[at + 4] === settled) return false;
    const milliseconds = this.clock(stage.to) - (state[at] ?? 0);
    const barParts = this.bars(stage.to) - (state[at + 1] ?? 0);
    return milliseconds < (state[at + 2] ?? 0) || barParts < (state[at + 3] ?? 0);
  }

  /** The soloist plays at a place: the silence before it is over. Null when it was too short. */
  afterNote(state: ScanState, place: number, index: number): ScanState | null {
    const [at, stage] = [index * width, this.stages[index]];
    if (!stage || state[at] === settled) return state;
    const next = [...state];
    next.splice(at, 4, settled, 0, 0, 0);
    if (this.watched) next.splice(5, 2, 0, this.missing(state, place));
    if (state[at] === enough) return next;
    const rest = this.restUpTo(state, at, place, stage);
    if (state[at + 4] === settled) next.splice(at + 4, 4, ...rest.lasts, ...rest.asked);
    else if (isTooShort(rest)) return null;
    return next;
  }

  private isWatched(stage: ScanStage, from: number, to: number): boolean {
    if (!this.watched) return false;
    const { silence } = this.watched;
    return restsTouching(stage.groundRun, from, to).some((rest) => rest.silence === silence);
  }

  /** What is missing of the rest that is watched once the silence ends that a state stands in. */
  private missing(state: ScanState, place: number): number {
    const [{ stages, watched }, [start = settled, barStart = 0, , , , isIn, before = 0]] = [this, state];
    const [stage] = stages;
    if (!watched || !stage || start < 0) return before;
    if (isIn !== 1 && !this.isWatched(stage, place, place)) return before;
    const isTime = watched.unit === "milliseconds";
    const lasts = isTime ? this.clock(place) - start : this.bars(place) - barStart;
    return Math.max(before, watched.asked - lasts);
  }

  /** What is to be told of a state when a cluster ends: only what is missing of the rest that is watched. */
  atEnd(state: ScanState): ScanState {
    const missing = this.watched ? this.missing(state, this.stages[0]?.to ?? 0) : 0;
    return missing === 0 ? this.nothingMissing : [settled, 0, 0, 0, 0, 0, missing, 0];
  }

  private restUpTo(state: ScanState, at: number, place: number, stage: ScanStage): Flow {
    const kept = keptTouching(this.kept, stage.groundRun, place, place);
    return {
      lasts: [this.clock(place) - (state[at] ?? 0), this.bars(place) - (state[at + 1] ?? 0)],
      asked: [Math.max(state[at + 2] ?? 0, kept.milliseconds), Math.max(state[at + 3] ?? 0, kept.barParts)],
    };
  }

  /**
   * Whether the soloist plays at a place for all states alike, so that they are all the same there, and whether that
   * ends a needed rest. Null where they are not: with rests that go over a jump nobody can tell before the end.
   */
  settles(place: number): { readonly endsNeed: boolean } | null {
    return this.settledAt.get(place) ?? null;
  }

  /** Whether every rest is long enough, those that go over a jump included, once all cuts are chosen. */
  isKept(state: ScanState): boolean {
    let flow: Flow | null = null;
    let lastRun = -1;
    for (const [index, stage] of this.stages.entries()) {
      const at = index * width;
      if (flow && (stage.run !== lastRun + 1 || !stage.opensLeft)) {
        if (isTooShort(flow)) return false;
        flow = null;
      }
      lastRun = stage.run;
      const hasPlayed = state[at + 4] !== settled;
      if (stage.opensLeft && hasPlayed) {
        const lead: Flow = {
          lasts: [state[at + 4] ?? 0, state[at + 5] ?? 0],
          asked: [state[at + 6] ?? 0, state[at + 7] ?? 0],
        };
        if (isTooShort(flow ? addFlows(flow, lead) : lead)) return false;
        flow = null;
      }
      const end = this.restAtEnd(state, at, stage);
      flow = flow && end && !hasPlayed ? addFlows(flow, end) : end;
      if (flow && !stage.opensRight) {
        if (isTooShort(flow)) return false;
        flow = null;
      }
    }
    return flow === null || !isTooShort(flow);
  }

  /** The silence in which a stage ends; null when it ends with a note. */
  private restAtEnd(state: ScanState, at: number, stage: ScanStage): Flow | null {
    if (state[at] === enough) return { lasts: [this.most.milliseconds, this.most.barParts], asked: [0, 0] };
    if (state[at] !== settled) return this.restUpTo(state, at, stage.to, stage);
    if (!stage.opensRight) return null;
    const start = silenceStart(stage.groundRun, stage.to);
    const kept = keptTouching(this.kept, stage.groundRun, stage.to, stage.to);
    return {
      lasts: [this.clock(stage.to) - this.clock(start), this.bars(stage.to) - this.bars(start)],
      asked: [kept.milliseconds, kept.barParts],
    };
  }
}

type PlaceThresholds = ReadonlyMap<number, Thresholds>;

/** Places are rounded to the millisecond, so that equal beats differ by a few. Source: ours, for speed alone. */
const roomMilliseconds = 5;
const roomBarParts = partsOfABar / 64;
