import type { Bar } from "./bar";
import type { Notice } from "./notice";

/** One bracketed ending; bars by index, both inclusive. */
export interface Ending {
  readonly first: number;
  readonly last: number;
  readonly numbers: readonly number[];
}

/** Endings that belong to one repeated section, in printed order, without a gap. */
export interface EndingGroup {
  readonly endings: readonly Ending[];
  /** How many times the section before them is played in all. */
  readonly rounds: number;
}

function lastBarOfEnding(bars: readonly Bar[], first: number): number {
  for (let index = first; index < bars.length; index += 1) {
    const bar = bars[index];
    if (bar?.repeats.stopsEnding) return index;
    if (bar && bar.repeats.endsRepeatAfter !== null) return index;
    if (bars[index + 1]?.repeats.startsEnding) return index;
  }
  return first;
}

function findEndings(bars: readonly Bar[]): Ending[] {
  return bars.flatMap((bar) => {
    const numbers = bar.repeats.startsEnding;
    return numbers ? [{ first: bar.index, last: lastBarOfEnding(bars, bar.index), numbers }] : [];
  });
}

function groupEndings(endings: readonly Ending[]): Ending[][] {
  const groups: Ending[][] = [];
  for (const ending of endings) {
    const group = groups.at(-1);
    const follows = group?.at(-1)?.last === ending.first - 1 && !ending.numbers.includes(1);
    if (group && follows) group.push(ending);
    else groups.push([ending]);
  }
  return groups;
}

const endsRepeat = (bars: readonly Bar[], ending: Ending): number | null =>
  bars[ending.last]?.repeats.endsRepeatAfter ?? null;

/** Every round finds its ending, and every ending but the last leads back. */
function isSound(bars: readonly Bar[], endings: readonly Ending[]): boolean {
  const numbers = endings.flatMap((ending) => ending.numbers).toSorted((a, b) => a - b);
  return (
    numbers.every((number, place) => number === place + 1) &&
    endings.every((ending, place) => endsRepeat(bars, ending) !== null || place === endings.length - 1) &&
    (endings.length > 1 || endings.every((ending) => endsRepeat(bars, ending) !== null))
  );
}

function countRounds(bars: readonly Bar[], endings: readonly Ending[]): number {
  const numbers = endings.flatMap((ending) => ending.numbers);
  const times = endings.map((ending) => (endings.length === 1 ? (endsRepeat(bars, ending) ?? 1) : 1));
  return Math.max(...numbers, ...times);
}

/**
 * The groups of endings that can be followed. Endings that no repeat serves, or whose numbers leave a round
 * without one, are left out, so that their bars are played in printed order; each such group is a notice.
 */
export function findEndingGroups(bars: readonly Bar[]): {
  groups: EndingGroup[];
  notices: Notice[];
} {
  const groups: EndingGroup[] = [];
  const notices: Notice[] = [];
  for (const endings of groupEndings(findEndings(bars))) {
    if (isSound(bars, endings)) groups.push({ endings, rounds: countRounds(bars, endings) });
    else notices.push(unusableEndings(bars, endings));
  }
  return { groups, notices };
}

function unusableEndings(bars: readonly Bar[], endings: readonly Ending[]): Notice {
  const barLabel = bars[endings[0]?.first ?? 0]?.label ?? null;
  return {
    kind: "endings-without-repeat",
    sentence: `The endings from bar ${barLabel} do not fit the repeat signs: their bars are played in printed order.`,
    partName: null,
    barLabel,
  };
}
