import type { Bar } from "./bar";
import { findEndingGroups } from "./repeat-sections";

/** A repeated section as printed; bars by index, both inclusive. */
export interface RepeatSpan {
  readonly first: number;
  /** The last bar that belongs to it: with the repeat sign, or of the last ending. */
  readonly last: number;
  /** Whether a sign marks its start; otherwise it goes back to wherever the section before it ended. */
  readonly hasStartSign: boolean;
  /** First and last bar of each ending. */
  readonly endings: readonly { readonly first: number; readonly last: number }[];
}

/** The repeated sections of a piece in written order, by the rules of `findPerformedOrder`. */
export function findRepeatSpans(bars: readonly Bar[]): RepeatSpan[] {
  const groupEndingAt = new Map(
    findEndingGroups(bars).groups.flatMap((group) => group.endings.map(({ last }) => [last, group] as const)),
  );
  const spans: RepeatSpan[] = [];
  let start = { index: 0, isSign: false };
  for (const bar of bars) {
    if (bar.repeats.startsRepeat) start = { index: bar.index, isSign: true };
    if (bar.repeats.endsRepeatAfter === null) continue;
    const group = groupEndingAt.get(bar.index);
    const isFirstOfGroup = !group || group.endings[0]?.last === bar.index;
    const last = group?.endings.at(-1)?.last ?? bar.index;
    if (isFirstOfGroup) {
      const endings = group?.endings.map((ending) => ({ first: ending.first, last: ending.last })) ?? [];
      spans.push({ first: start.index, last, hasStartSign: start.isSign, endings });
    }
    start = { index: last + 1, isSign: false };
  }
  return spans;
}
