import { partsOfABar } from "@/lib/score/silent-bars";
import { type Cluster, firstFrom, reachOf, type Stage } from "./find-clusters";
import { type KeptRest, mostOfBoth, nothingKept } from "./kept-rests";
import type { Ground, GroundCut, GroundRun } from "./plan-ground";
import { addFlows, type Flow, isTooShort } from "./rest-flow";
import { findThresholds, noThresholds, reachesAll, reachThreshold, type Thresholds } from "./rest-thresholds";
import { restsTouching, silenceStart } from "./rests-touching";

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
 */
export type ScanState = readonly number[];

const width = 8;
const settled = -1;
const enough = -2;

/** A cut as a stage sees it. */
interface StageCut {
  readonly milliseconds: number;
  readonly barParts: number;
  readonly from: number;
  /** Where the silence begins that the cut starts in, by the page alone. */
  readonly pageStart: number;
  readonly kept: KeptRest;
}

interface ScanStage extends Stage {
  readonly groundRun: GroundRun;
  readonly firstNote: number | null;
  readonly byCut: ReadonlyMap<number, StageCut>;
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

  constructor(
    private readonly ground: Ground,
    cluster: Cluster,
    private readonly kept: ReadonlyMap<number, KeptRest>,
  ) {
    const asked = [...cluster.silences].map((silence) => kept.get(silence) ?? nothingKept);
    this.most = asked.reduce(mostOfBoth, nothingKept);
    const isAsked = this.most.milliseconds > 0 || this.most.barParts > 0;
    const stages = isAsked ? this.leaveOutAlike(cluster.stages) : [];
    this.stages = stages.map((stage) => this.readStage(stage, cluster.cuts));
    this.notes = findNotes(this.stages, cluster.cuts);
    const ends = cluster.cuts.flatMap(({ from, to }) => [from, to]);
    // Where nothing is asked of any rest, every note is as good a place as any other to sum up at.
    const all = isAsked
      ? this.notes
      : findNotes(
          cluster.stages.map((stage) => this.readStage(stage, cluster.cuts)),
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
    const find = (measure: (place: number) => number, amounts: number[], room: number): PlaceThresholds => {
      const places = this.places.map((place) => {
        const clock = measure(placeInStage(stage, place));
        return { place, clock, hasNote: this.notes.has(place), landings: [...(landings.get(place) ?? [])] };
      });
      return findThresholds(places, measure(stage.to), amounts, room);
    };
    return {
      clock: find(
        (place) => this.clock(place),
        asked.map(({ milliseconds }) => milliseconds),
        roomMilliseconds,
      ),
      bars: find(
        (place) => this.bars(place),
        asked.map(({ barParts }) => barParts),
        roomBarParts,
      ),
    };
  }

  /** Two rounds of a section in which nothing goes over a jump are alike when they ask the same: one is enough. */
  private leaveOutAlike(stages: readonly Stage[]): Stage[] {
    const seen = new Set<string>();
    return stages.filter(({ run, from, to, opensLeft, opensRight }) => {
      if (opensLeft || opensRight) return true;
      const groundRun = this.ground.runs[run];
      const rests = groundRun ? restsTouching(groundRun, from, to) : [];
      const asked = rests.map(({ silence, ...place }) => ({ ...place, ...this.kept.get(silence) }));
      const key = JSON.stringify([from, to, this.ground.runs[run]?.to === to, asked]);
      const isNew = !seen.has(key);
      seen.add(key);
      return isNew;
    });
  }

  private readStage(stage: Stage, cuts: readonly GroundCut[]): ScanStage {
    const groundRun = this.ground.runs[stage.run] as GroundRun;
    const byCut = new Map<number, StageCut>();
    for (const cut of cuts) {
      const reach = reachOf(groundRun, cut);
      if (!reach) continue;
      byCut.set(cut.index, {
        milliseconds: this.clock(reach.landing) - this.clock(reach.from),
        barParts: this.bars(reach.landing) - this.bars(reach.from),
        from: reach.from,
        pageStart: silenceStart(groundRun, reach.from),
        kept: this.keptTouching(groundRun, reach.from, reach.to),
      });
    }
    return { ...stage, groundRun, byCut, firstNote: firstFrom(groundRun.onsets, stage.from) };
  }

  private clock(place: number): number {
    return this.ground.milliseconds[place] ?? 0;
  }

  private bars(place: number): number {
    return this.ground.barParts[place] ?? 0;
  }

  /** The most that must be left of any rest of a run that touches `[from, to]`. */
  private keptTouching(run: GroundRun, from: number, to: number): KeptRest {
    let most = nothingKept;
    for (const rest of restsTouching(run, from, to)) {
      most = mostOfBoth(most, this.kept.get(rest.silence) ?? nothingKept);
    }
    return most;
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

  private shorten(state: ScanState, place: number, clock: number, bars: number): ScanState {
    const [lasts, barParts] = [clock - (state[0] as number), bars - (state[1] as number)];
    if (this.isEnough(lasts, barParts)) return this.enoughState;
    if (!this.thresholds) return state;
    const time = this.thresholds.clock.get(place) ?? noThresholds;
    const count = this.thresholds.bars.get(place) ?? noThresholds;
    const [inTime, inBars] = [reachThreshold(time, lasts), reachThreshold(count, barParts)];
    if (reachesAll(time, inTime) && reachesAll(count, inBars)) return this.enoughState;
    if (inTime === lasts && inBars === barParts) return state;
    return [clock - inTime, bars - inBars, state[2] as number, state[3] as number, 0, 0, 0, 0];
  }

  /** What a cut that lands at a place makes of states; null when too little rest is left, whatever follows. */
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
    const [clock, bars] = [this.clock(at), this.bars(at)];
    return (state) => {
      const next = this.afterCutHere(stage, here, state);
      return next && next !== this.enoughState ? this.shorten(next, place, clock, bars) : next;
    };
  }

  /** `afterCut` where a single stage is followed. */
  private afterCutHere(stage: ScanStage, here: StageCut, state: ScanState): ScanState | null {
    if (state[0] === enough) return this.enoughState;
    const isSettled = state[0] === settled;
    const start = isSettled ? this.clock(here.pageStart) : (state[0] as number);
    const barStart = isSettled ? this.bars(here.pageStart) : (state[1] as number);
    if (this.isEnough(this.clock(here.from) - start, this.bars(here.from) - barStart))
      return this.enoughState;
    const milliseconds = Math.max(state[2] as number, here.kept.milliseconds);
    const barParts = Math.max(state[3] as number, here.kept.barParts);
    const next = [start + here.milliseconds, barStart + here.barParts, milliseconds, barParts, 0, 0, 0, 0];
    return this.isHopeless(stage, next, 0) ? null : next;
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
    if (state[at] === enough) return next;
    const rest = this.restUpTo(state, at, place, stage);
    if (state[at + 4] === settled) next.splice(at + 4, 4, ...rest.lasts, ...rest.asked);
    else if (isTooShort(rest)) return null;
    return next;
  }

  private restUpTo(state: ScanState, at: number, place: number, stage: ScanStage): Flow {
    const kept = this.keptTouching(stage.groundRun, place, place);
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
    const kept = this.keptTouching(stage.groundRun, stage.to, stage.to);
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

const placeInStage = ({ from, to }: Stage, place: number) => Math.min(Math.max(place, from), to);

/** Stages by the places at which a note may end a silence: their first note, and the next one after each landing. */
function findNotes(
  stages: readonly ScanStage[],
  cuts: readonly GroundCut[],
): ReadonlyMap<number, readonly number[]> {
  const notes = new Map<number, number[]>();
  for (const [index, { groundRun, firstNote }] of stages.entries()) {
    const after = cuts.flatMap((cut) => {
      const reach = reachOf(groundRun, cut);
      const note = reach ? firstFrom(groundRun.onsets, reach.landing) : null;
      return note === null ? [] : [note];
    });
    for (const place of new Set(firstNote === null ? after : [firstNote, ...after])) {
      notes.set(place, [...(notes.get(place) ?? []), index]);
    }
  }
  return notes;
}
