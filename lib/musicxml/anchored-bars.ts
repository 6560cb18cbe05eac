import {
  addQuarters,
  isEqualQuarters,
  laterOf,
  noQuarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/**
 * Bars whose length no note, rest or metre shows, so that a `forward` has to: a reader would take them to be as long as
 * their notes, or as their metre.
 */
export function findAnchoredBars(score: Score): ReadonlySet<number> {
  const reached = score.bars.map(() => noQuarters);
  const withWholeBarRest = new Set<number>();
  for (const item of score.parts.flatMap(({ notes, rests }) => [...notes, ...rests])) {
    const { barIndex, onset, duration } = item;
    const bar = score.bars[barIndex];
    if (!bar) continue;
    if ("isWholeBar" in item && item.isWholeBar) withWholeBarRest.add(barIndex);
    else {
      const end = subtractQuarters(addQuarters(onset, duration), bar.start);
      reached[barIndex] = laterOf(reached[barIndex] ?? noQuarters, end);
    }
  }
  const anchored = score.bars.filter((bar) => {
    const end = reached[bar.index] ?? noQuarters;
    if (isEqualQuarters(end, bar.length)) return false;
    // Without a metre, an empty bar is read as a whole note long.
    const expected = bar.metre.groups.length === 0 ? quarters(4) : bar.metreLength;
    if (withWholeBarRest.has(bar.index)) {
      return bar.metre.groups.length > 0 && !isEqualQuarters(bar.length, bar.metreLength);
    }
    return end.num > 0 || !isEqualQuarters(bar.length, expected);
  });
  return new Set(anchored.map(({ index }) => index));
}
