import type { Part } from "@/lib/score/part";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A stretch of written time in which the soloist plays without a rest, end exclusive. */
export interface SoloStretch {
  readonly from: Quarters;
  readonly to: Quarters;
  readonly firstNoteId: string;
}

/** In written order, as the page has it; repeats are not counted twice. */
export function findSoloStretches(score: Score, solo: Part | null): SoloStretch[] {
  const stretches: SoloStretch[] = [];
  if (score.bars.length === 0) return stretches;
  const notes = (solo?.notes ?? []).filter(isPlayed);
  for (const { id, onset, duration } of notes.toSorted((a, b) => compareQuarters(a.onset, b.onset))) {
    const end = addQuarters(onset, duration);
    const last = stretches.at(-1);
    if (last && compareQuarters(onset, last.to) <= 0) {
      if (compareQuarters(end, last.to) > 0) stretches[stretches.length - 1] = { ...last, to: end };
    } else stretches.push({ from: onset, to: end, firstNoteId: id });
  }
  return stretches;
}

/** The first stretch that begins at a written time or later, after at least a beat of rest; null when none does. */
export function nextEntry(
  stretches: readonly SoloStretch[],
  time: Quarters,
  rest: Quarters,
): SoloStretch | null {
  for (const [index, stretch] of stretches.entries()) {
    if (compareQuarters(stretch.from, time) < 0) continue;
    const before = stretches[index - 1];
    if (!before || compareQuarters(stretch.from, addQuarters(before.to, rest)) >= 0) return stretch;
  }
  return null;
}

/** The stretch that sounds on across a written time; null in a rest and where one begins. */
export function soloAt(stretches: readonly SoloStretch[], time: Quarters): SoloStretch | null {
  return (
    stretches.find(({ from, to }) => compareQuarters(from, time) < 0 && compareQuarters(time, to) < 0) ?? null
  );
}
