import { compareQuarters, isEqualQuarters, type Quarters } from "@/lib/score/quarters";
import type { LocalChord } from "./find-chords";

/** Beats in a row with the same chord in the same key. */
export interface ChordSpan {
  readonly first: LocalChord;
  readonly last: LocalChord;
  readonly beats: readonly LocalChord[];
}

function goesOn(before: LocalChord, next: LocalChord): boolean {
  return (
    isEqualQuarters(before.end, next.onset) &&
    before.root === next.root &&
    before.quality === next.quality &&
    before.key.tonic === next.key.tonic &&
    before.key.mode === next.key.mode
  );
}

export function joinChords(chords: readonly LocalChord[]): ChordSpan[] {
  const spans: LocalChord[][] = [];
  for (const chord of chords) {
    const span = spans.at(-1);
    const before = span?.at(-1);
    if (span && before && goesOn(before, chord)) span.push(chord);
    else spans.push([chord]);
  }
  return spans.flatMap((beats) => {
    const [first, last] = [beats[0], beats.at(-1)];
    return first && last ? [{ first, last, beats }] : [];
  });
}

/** Whether the second begins where the first ends, without silence between. */
export function isAdjacent(before: ChordSpan, next: ChordSpan): boolean {
  return isEqualQuarters(before.last.end, next.first.onset);
}

/** The next time at which something begins after `time`; null when nothing does. `onsets` in order. */
export function onsetAfter(onsets: readonly Quarters[], time: Quarters): Quarters | null {
  let [low, high] = [0, onsets.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compareQuarters(onsets[middle] as Quarters, time) <= 0) low = middle + 1;
    else high = middle;
  }
  return onsets[low] ?? null;
}
