import type { Bar } from "./bar";
import type { Notice } from "./notice";
import { addQuarters, noQuarters, type Quarters } from "./quarters";
import type { Score } from "./score";
import { unfoldBars } from "./unfold-bars";

/** One bar, or the part of a bar, that sounds. */
export interface PerformedBar {
  readonly barIndex: number;
  /** How many times this bar has been played, this time included: from 1. */
  readonly pass: number;
  /** Offsets inside the bar that sound; the whole bar unless a cut took the rest. */
  readonly from: Quarters;
  readonly to: Quarters;
  /** Performed time. */
  readonly start: Quarters;
}

/** The bars in the order they sound. */
export interface PerformedOrder {
  readonly bars: readonly PerformedBar[];
  /** Performed time of the end. */
  readonly length: Quarters;
  /** Signs that make no sense, and what was done about them. */
  readonly notices: readonly Notice[];
}

function layOut(bars: readonly Bar[], indices: readonly number[]): Pick<PerformedOrder, "bars" | "length"> {
  const passes = new Map<number, number>();
  const performed: PerformedBar[] = [];
  let start = noQuarters;
  for (const barIndex of indices) {
    const bar = bars[barIndex];
    if (!bar) continue;
    const pass = (passes.get(barIndex) ?? 0) + 1;
    passes.set(barIndex, pass);
    performed.push({ barIndex, pass, from: noQuarters, to: bar.length, start });
    start = addQuarters(start, bar.length);
  }
  return { bars: performed, length: start };
}

/**
 * The order in which the bars sound: repeats taken, endings chosen, D.C., D.S., coda and Fine followed.
 *
 * - A repeat that ends without a start goes back to the end of the repeated section before it, or to the beginning.
 * - A start inside a repeated section begins a new one: signs are read as printed, without true nesting.
 * - After D.C. or D.S. repeats that were already taken are not taken again, and the last ending is played.
 * - Each D.C. and D.S. is taken once, so every order ends.
 *
 * @returns also notices for signs that were ignored: a jump without its target, endings that no repeat serves.
 * Source: MusicXML 4.0, `repeat`, `ending`, `sound`; after a jump without repeats: common practice.
 */
export function findPerformedOrder(score: Score): PerformedOrder {
  const { indices, notices } = unfoldBars(score.bars);
  return { ...layOut(score.bars, indices), notices };
}
