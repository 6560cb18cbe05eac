import { groupByBar } from "@/lib/score/group-by-bar";
import type { Part } from "@/lib/score/part";
import { performedBarsBetween } from "@/lib/score/performed-bars-between";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { addQuarters, compareQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** Where notes begin: by bar, the offset in it of each note or chord of a part that is printed and not tied over. */
function onsetsByBar(score: Score, part: Part): Map<number, Quarters[]> {
  const begins = part.notes.filter(
    (note) => !(note.isHidden || note.isGrace || note.isChordMember || note.tieStop),
  );
  const byBar = new Map<number, Quarters[]>();
  for (const [barIndex, notes] of groupByBar(begins)) {
    const start = score.bars[barIndex]?.start;
    if (start)
      byBar.set(
        barIndex,
        notes.map((note) => subtractQuarters(note.onset, start)),
      );
  }
  return byBar;
}

/** Where something begins in any of several parts, ready to be counted. */
export interface OnsetIndex {
  /** Offsets in each bar, by bar index. */
  readonly byBar: ReadonlyMap<number, readonly Quarters[]>;
}

export function indexOnsets(score: Score, parts: readonly Part[]): OnsetIndex {
  const byBar = new Map<number, Quarters[]>();
  for (const part of parts) {
    for (const [barIndex, offsets] of onsetsByBar(score, part)) {
      byBar.set(barIndex, [...(byBar.get(barIndex) ?? []), ...offsets]);
    }
  }
  return { byBar };
}

/** Notes and chords that begin within a span of performed time. */
export function countOnsets(
  order: PerformedOrder,
  { byBar }: OnsetIndex,
  span: { readonly from: Quarters; readonly to: Quarters },
): number {
  let count = 0;
  for (const performed of performedBarsBetween(order, span.from, span.to)) {
    const shift = subtractQuarters(performed.start, performed.from);
    for (const offset of byBar.get(performed.barIndex) ?? []) {
      if (compareQuarters(offset, performed.from) < 0 || compareQuarters(offset, performed.to) >= 0) continue;
      const place = addQuarters(offset, shift);
      if (compareQuarters(place, span.from) >= 0 && compareQuarters(place, span.to) < 0) count += 1;
    }
  }
  return count;
}
