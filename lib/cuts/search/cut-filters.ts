import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** What the players want to keep, and where they look. */
export interface CutFilters {
  /** From bar line to bar line only, or from beat to beat as well, which is usual. */
  readonly resolution?: "bars" | "beats";
  /** Only cuts that begin here. */
  readonly from?: Position;
  /** Only cuts that land here. */
  readonly to?: Position;
  /** Whole bars before the soloist's next entry that stay; otherwise four bars and six seconds do. */
  readonly keepLastBars?: number;
  /** Rehearsal marks, as printed, that are not left out. */
  readonly keepRehearsal?: readonly string[];
  /** No theme loses its last statement. */
  readonly keepTheme?: boolean;
  /** Least and most that a cut saves, in seconds; without a least, it leaves out two bars and three seconds or more. */
  readonly leastSeconds?: number;
  readonly mostSeconds?: number;
  /** How many cuts are returned; ten when left out. */
  readonly limit?: number;
}

/** @throws RangeError if a filter is out of range. */
export function checkFilters({ keepLastBars, leastSeconds, mostSeconds, limit }: CutFilters): void {
  const numbers = { keepLastBars, leastSeconds, mostSeconds, limit };
  for (const [name, value] of Object.entries(numbers)) {
    if (value !== undefined && !(value >= 0)) throw new RangeError(`Not a number for ${name}: ${value}`);
  }
}

/** Written times of the rehearsal marks that are to stay. */
export function findKeptMarks(score: Score, { keepRehearsal }: CutFilters): Quarters[] {
  const wanted = new Set(keepRehearsal);
  return score.parts.flatMap(({ directions }) =>
    directions.flatMap((direction) =>
      direction.kind === "rehearsal" && wanted.has(direction.text) ? [direction.onset] : [],
    ),
  );
}

/** Whether a cut leaves out one of these times. */
export function takesAny(score: Score, { from, to }: CutSpan, times: readonly Quarters[]): boolean {
  const [start, end] = [onsetOf(score, from), onsetOf(score, to)];
  return times.some((time) => compareQuarters(time, start) >= 0 && compareQuarters(time, end) < 0);
}
