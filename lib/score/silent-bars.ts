import type { Part } from "./part";
import { isPlayed } from "./playing-spans";
import { compareQuarters, type Quarters, quartersAsNumber, subtractQuarters } from "./quarters";
import type { Score } from "./score";

/**
 * Parts of a bar in which silent bars are counted, so that sums stay whole numbers: divisible by 64 and by 96, the
 * shortest values in use, and by 5, 7 and 11. Places inside a bar are rounded to it.
 */
export const partsOfABar = 221_760;

/** Bars in which a part plays nothing, counted along the page in `partsOfABar`. */
export interface SilentBars {
  at(written: Quarters): number;
}

/**
 * Bars as a player counts rests: a bar in which the part plays anything counts nothing, a wholly silent bar counts 1, an
 * upbeat or another short bar the share of its metre; the last bar counts 1 however much of it the upbeat took. Pieces
 * of a silent bar that a cut divides count their share.
 *
 * Source: common practice; see `countBars`, which counts the same of a stretch that no cut divides.
 */
export function readSilentBars(score: Score, part: Part): SilentBars {
  const played = new Set(part.notes.flatMap((note) => (isPlayed(note) ? [note.barIndex] : [])));
  const starts: number[] = [];
  const shares: number[] = [];
  let now = 0;
  for (const bar of score.bars) {
    const isLast = bar.index === score.bars.length - 1 && bar.index > 0;
    const isFull = isLast || compareQuarters(bar.length, bar.metreLength) >= 0;
    const share = isFull ? 1 : quartersAsNumber(bar.length) / quartersAsNumber(bar.metreLength);
    starts.push(now);
    shares.push(played.has(bar.index) || bar.length.num === 0 ? 0 : Math.round(partsOfABar * share));
    now += shares[bar.index] ?? 0;
  }
  return {
    at(written) {
      let low = 0;
      let high = score.bars.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        const bar = score.bars[middle];
        if (bar && compareQuarters(bar.start, written) <= 0) low = middle + 1;
        else high = middle;
      }
      const bar = score.bars[low - 1];
      const share = shares[low - 1] ?? 0;
      if (!bar || share === 0) return starts[low - 1] ?? 0;
      const inside = quartersAsNumber(subtractQuarters(written, bar.start)) / quartersAsNumber(bar.length);
      return (starts[low - 1] ?? 0) + Math.round(share * Math.min(1, inside));
    },
  };
}
