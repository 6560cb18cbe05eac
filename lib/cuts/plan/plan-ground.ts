import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { isPlayed } from "@/lib/score/playing-spans";
import { compareQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import type { RestReading } from "@/lib/score/rest-left";
import { type CutCandidate, costRows, noCostRows, type PlanWeights } from "./cut-candidate";
import { clipToRun, findRuns } from "./plan-runs";

/** A candidate on the ground: places instead of positions, whole numbers instead of seconds and costs. */
export interface GroundCut {
  /** In the caller's list; those that are agreed are numbered on behind it. */
  readonly index: number;
  readonly isAgreed: boolean;
  readonly from: number;
  readonly to: number;
  /** All times that it is passed counted. */
  readonly savedMilliseconds: number;
  /** In thousandths. */
  readonly cost: number;
}

/** The piece of a silence that lies in a run. */
export interface GroundRest {
  /** In the reading's list of silences. */
  readonly silence: number;
  readonly from: number;
  readonly to: number;
}

export interface GroundRun {
  readonly from: number;
  readonly to: number;
  /** Where the soloist begins a note, in order. */
  readonly onsets: readonly number[];
  /** In order; two of them never touch. */
  readonly rests: readonly GroundRest[];
}

/**
 * The piece as the planner sees it. A place is a number: the order of all written times at which anything happens
 * (ends of candidates, solo notes, rests, jumps).
 */
export interface Ground {
  readonly cuts: readonly GroundCut[];
  readonly runs: readonly GroundRun[];
  /** By place: the clock for rests in milliseconds, and silent bars in `partsOfABar`. */
  readonly milliseconds: readonly number[];
  readonly barParts: readonly number[];
}

/** Gathers written times, then gives each its number. */
class Places {
  private readonly times = new Map<string, Quarters>();
  private numbers = new Map<string, number>();

  add(time: Quarters): Quarters {
    this.times.set(writeQuarters(time), time);
    return time;
  }

  number(): Quarters[] {
    const sorted = [...this.times.values()].sort(compareQuarters);
    this.numbers = new Map(sorted.map((time, index) => [writeQuarters(time), index]));
    return sorted;
  }

  of(time: Quarters): number {
    const number = this.numbers.get(writeQuarters(time));
    if (number === undefined) throw new RangeError(`No place at ${writeQuarters(time)}`);
    return number;
  }
}

/** Where the soloist begins a note, in written order. */
function findSoloOnsets({ solo }: RestReading): Quarters[] {
  return (solo?.notes ?? []).filter(isPlayed).map((note) => note.onset);
}

/**
 * @param usable indices of the candidates that may be chosen.
 * @param agreed cuts that every set has, apart from each other and from the usable candidates.
 * @param clock of the limit, which may run at another pace than the reading's.
 * @throws RangeError if a candidate lies outside the piece or its cost is negative.
 */
export function layGround(
  reading: RestReading,
  clock: (written: Quarters) => number,
  candidates: readonly CutCandidate[],
  usable: readonly number[],
  agreed: readonly CutSpan[],
  weights: PlanWeights,
): Ground {
  const { score, order, silences } = reading;
  const places = new Places();
  const runs = findRuns(score, order);
  for (const run of runs) [run.from, run.to].map((time) => places.add(time));
  const onsets = findSoloOnsets(reading).map((onset) => places.add(onset));
  const rests = runs.map((run) =>
    silences.flatMap((silence, index) => {
      const piece = clipToRun(run, silence);
      return piece ? [{ silence: index, from: places.add(piece.from), to: places.add(piece.to) }] : [];
    }),
  );
  const chosen = usable.flatMap((index) => candidates[index] ?? []);
  const spans = [...chosen, ...agreed].map(({ from, to }, at) => ({
    index: usable[at] ?? candidates.length + at - usable.length,
    candidate: chosen[at] ?? null,
    from: places.add(onsetOf(score, from)),
    to: places.add(onsetOf(score, to)),
  }));
  const times = places.number();
  const limitClock = times.map(clock);
  const between = (from: number, to: number) => (limitClock[to] ?? 0) - (limitClock[from] ?? 0);
  const groundRuns = runs.map((run, index): GroundRun => {
    const [from, to] = [places.of(run.from), places.of(run.to)];
    const inside = new Set(onsets.map((onset) => places.of(onset)).filter((at) => at >= from && at < to));
    const pieces = (rests[index] ?? []).map((rest) => {
      return { silence: rest.silence, from: places.of(rest.from), to: places.of(rest.to) };
    });
    return { from, to, onsets: [...inside].sort((a, b) => a - b), rests: pieces };
  });
  const cuts = spans.map(({ index, candidate, ...span }): GroundCut => {
    const [from, to] = [places.of(span.from), places.of(span.to)];
    const savedMilliseconds = groundRuns.reduce((sum, run) => {
      const [begin, end] = [Math.max(from, run.from), Math.min(to, run.to)];
      return begin < end ? sum + between(begin, end) : sum;
    }, 0);
    const rows = candidate ? costRows(candidate, savedMilliseconds, weights) : noCostRows;
    const cost = rows.join + rows.cut + rows.music;
    return { index, isAgreed: candidate === null, from, to, savedMilliseconds, cost };
  });
  return {
    cuts,
    runs: groundRuns,
    milliseconds: times.map(reading.milliseconds),
    barParts: times.map(reading.barParts),
  };
}
