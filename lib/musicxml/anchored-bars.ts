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
  for (const { barIndex, end, isWholeBarRest } of timesShown(score)) {
    const bar = score.bars[barIndex];
    if (!bar) continue;
    if (isWholeBarRest) withWholeBarRest.add(barIndex);
    else reached[barIndex] = laterOf(reached[barIndex] ?? noQuarters, subtractQuarters(end, bar.start));
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

/** Whatever is written at a place makes the bar reach that place. */
function timesShown(score: Score) {
  const sounding = score.parts.flatMap(({ notes, rests }) => [...notes, ...rests]);
  const placed = score.parts.flatMap((part) =>
    [part.directions, part.clefs, part.keys, part.transpositions].flat(),
  );
  return [
    ...sounding.map((item) => ({
      barIndex: item.barIndex,
      end: addQuarters(item.onset, item.duration),
      isWholeBarRest: "isWholeBar" in item && item.isWholeBar,
    })),
    ...[...placed, ...score.tempoMarks].map(({ barIndex, onset }) => ({
      barIndex,
      end: onset,
      isWholeBarRest: false,
    })),
  ];
}
