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
 * what is written in them, or as their metre.
 */
export function findAnchoredBars(score: Score): ReadonlySet<number> {
  const ends = findEnds(score);
  const withWholeBarRest = new Set(
    score.parts.flatMap(({ rests }) =>
      rests.flatMap(({ isWholeBar, barIndex }) => (isWholeBar ? [barIndex] : [])),
    ),
  );
  const withSigns = new Set(findSigns(score).map(({ barIndex }) => barIndex));
  const anchored = score.bars.filter((bar) => {
    const end = ends[bar.index] ?? noQuarters;
    if (isEqualQuarters(end, bar.length)) return false;
    const hasMetre = bar.metre.groups.length > 0;
    if (withWholeBarRest.has(bar.index)) return hasMetre && !isEqualQuarters(bar.length, bar.metreLength);
    // Without a metre, an empty bar is read as a whole note long.
    const expected = hasMetre ? bar.metreLength : quarters(4);
    return end.num > 0 || withSigns.has(bar.index) || !isEqualQuarters(bar.length, expected);
  });
  return new Set(anchored.map(({ index }) => index));
}

/** How far notes and rests reach in each bar, the bar's own rests left out. */
function findEnds(score: Score) {
  const ends = score.bars.map(() => noQuarters);
  for (const item of score.parts.flatMap(({ notes, rests }) => [...notes, ...rests])) {
    const bar = score.bars[item.barIndex];
    if (!bar || ("isWholeBar" in item && item.isWholeBar)) continue;
    const end = subtractQuarters(addQuarters(item.onset, item.duration), bar.start);
    ends[bar.index] = laterOf(ends[bar.index] ?? noQuarters, end);
  }
  return ends;
}

/** What is written at a place inside a bar makes a reader think that the bar reaches it. */
function findSigns(score: Score) {
  const placed = score.parts.flatMap((part) =>
    [part.directions, part.clefs, part.keys, part.transpositions].flat(),
  );
  return [...placed, ...score.tempoMarks].filter(({ barIndex, onset }) => {
    const bar = score.bars[barIndex];
    return bar !== undefined && !isEqualQuarters(onset, bar.start);
  });
}
