import { type Cluster, firstFrom, reachOf, type Stage } from "./find-clusters";
import { type KeptRest, mostOfBoth, nothingKept } from "./kept-rests";
import type { Ground, GroundCut, GroundRun } from "./plan-ground";
import { restsTouching, silenceStart } from "./rests-touching";

/** What has to be left of silences, by their number in the reading. */
export type KeptRests = ReadonlyMap<number, KeptRest>;

/** A cut as a stage sees it. */
export interface StageCut {
  readonly milliseconds: number;
  readonly barParts: number;
  readonly from: number;
  /** The first note behind it. */
  readonly to: number;
  /** Where the silence begins that the cut starts in, by the page alone. */
  readonly pageStart: number;
  readonly kept: KeptRest;
}

export interface ScanStage extends Stage {
  readonly groundRun: GroundRun;
  readonly firstNote: number | null;
  readonly byCut: ReadonlyMap<number, StageCut>;
}

export const placeInStage = ({ from, to }: Stage, place: number) => Math.min(Math.max(place, from), to);

/** The most that must be left of any rest of a run that touches `[from, to]`. */
export function keptTouching(kept: KeptRests, run: GroundRun, from: number, to: number): KeptRest {
  let most = nothingKept;
  for (const rest of restsTouching(run, from, to)) {
    most = mostOfBoth(most, kept.get(rest.silence) ?? nothingKept);
  }
  return most;
}

export function readStage(ground: Ground, kept: KeptRests, stage: Stage, cuts: Cluster["cuts"]): ScanStage {
  const groundRun = ground.runs[stage.run] as GroundRun;
  const between = (clock: readonly number[], from: number, to: number) =>
    (clock[to] ?? 0) - (clock[from] ?? 0);
  const byCut = new Map<number, StageCut>();
  for (const cut of cuts) {
    const reach = reachOf(groundRun, cut);
    if (!reach) continue;
    byCut.set(cut.index, {
      milliseconds: between(ground.milliseconds, reach.from, reach.landing),
      barParts: between(ground.barParts, reach.from, reach.landing),
      from: reach.from,
      to: reach.to,
      pageStart: silenceStart(groundRun, reach.from),
      kept: keptTouching(kept, groundRun, reach.from, reach.to),
    });
  }
  return { ...stage, groundRun, byCut, firstNote: firstFrom(groundRun.onsets, stage.from) };
}

/** Two rounds of a section in which nothing goes over a jump are alike when they ask the same: one is enough. */
export function leaveOutAlike(ground: Ground, kept: KeptRests, stages: readonly Stage[]): Stage[] {
  const seen = new Set<string>();
  return stages.filter(({ run, from, to, opensLeft, opensRight }) => {
    if (opensLeft || opensRight) return true;
    const groundRun = ground.runs[run];
    const rests = groundRun ? restsTouching(groundRun, from, to) : [];
    const asked = rests.map(({ silence, ...place }) => ({ ...place, ...kept.get(silence) }));
    const key = JSON.stringify([from, to, groundRun?.to === to, asked]);
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}

/** Stages by the places at which a note may end a silence: their first note, and the next one after each landing. */
export function findNotes(
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
