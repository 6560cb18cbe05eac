import type { Score } from "@/lib/score/score";
import type { BarMap } from "./bar-maps";

/** Where a printed bar is in one edition. */
export interface BarInEdition {
  /** Which of the bars played it is, from 1, each time it is played; none when it is cut. */
  readonly numbers: readonly number[];
  /** How many bars are played, a part that a cut left counted as one. */
  readonly of: number;
}

/** The place of a printed bar among the bars of an edition. A bar in whose middle a cut lies is named by its first part. */
export function findBar({ order }: BarMap, barIndex: number): BarInEdition {
  const passes = new Map<number, number>();
  for (const [index, bar] of order.bars.entries()) {
    if (bar.barIndex === barIndex && !passes.has(bar.pass)) passes.set(bar.pass, index + 1);
  }
  return { numbers: [...passes.values()], of: order.bars.length };
}

/** A bar by the number that is printed on it, the first where several bear it; null where none does. */
export function findBarByLabel(score: Score, text: string): number | null {
  const wanted = text.trim().toLowerCase();
  if (wanted === "") return null;
  const index = score.bars.findIndex(({ label }) => label.trim().toLowerCase() === wanted);
  return index < 0 ? null : index;
}

/** "the 61st bar played", "the 12th and the 40th bars played", "cut". */
export function sayBarInEdition({ numbers }: BarInEdition): string {
  const [first, ...others] = numbers.map((number) => `the ${sayOrdinal(number)}`);
  if (first === undefined) return "cut";
  const last = others.at(-1);
  if (last === undefined) return `${first} bar played`;
  return `${[first, ...others.slice(0, -1)].join(", ")} and ${last} bars played`;
}

/** "1st", "2nd", "3rd", "11th", "61st". */
function sayOrdinal(number: number): string {
  const tens = number % 100;
  const suffix = tens >= 11 && tens <= 13 ? "th" : (["th", "st", "nd", "rd"][number % 10] ?? "th");
  return `${number}${suffix}`;
}
