import type { StripHands, StripPiece } from "@/app/_ui/strip/strip-piece";
import type { TempoMark } from "@/lib/practice/tempo-marks";
import type { HandsAtTempo } from "@/lib/study/hands-at-tempo";
import type { ListedPlace } from "./list-places";

/** The row of hands: each bar as often as it sounds, and a triangle for each place of the list, and what is not yet at tempo. */
export function handsOnStrip(
  { bars }: Pick<StripPiece, "bars">,
  view: HandsAtTempo,
  places: readonly ListedPlace[],
  marks: readonly TempoMark[],
): StripHands {
  return {
    tempi: marks
      .flatMap(({ fromBar, toBar, label, short, words }) =>
        stretchesOf(bars, fromBar, toBar).map((stretch) => ({
          ...stretch,
          short,
          words: `${label}: ${words}`,
        })),
      )
      .sort((a, b) => a.from - b.from),
    bars: bars.map(({ from, to, barIndex }) => ({
      ...{ from, to },
      difficulty: view.bars[barIndex]?.difficulty ?? 0,
    })),
    passages: places
      .flatMap(({ fromBar, toBar, state }) =>
        stretchesOf(bars, fromBar, toBar).map((stretch) => ({
          ...stretch,
          ...{ firstBar: fromBar, lastBar: toBar, isSolved: state.isSolved },
        })),
      )
      .sort((a, b) => a.from - b.from),
  };
}

/** Where bars sound, once for each time they are played through. */
function stretchesOf(bars: StripPiece["bars"], fromBar: number, toBar: number) {
  const stretches: { from: number; to: number; last: number }[] = [];
  for (const { from, to, barIndex } of bars) {
    if (barIndex < fromBar || barIndex > toBar) continue;
    const open = stretches.at(-1);
    if (open && open.to === from && barIndex === open.last + 1) {
      open.to = to;
      open.last = barIndex;
    } else stretches.push({ from, to, last: barIndex });
  }
  return stretches.map(({ from, to }) => ({ from, to }));
}
