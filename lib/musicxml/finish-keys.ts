import type { KeySignature } from "@/lib/score/bar";
import type { KeyChange, TranspositionChange } from "@/lib/score/part";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import { atPitch, type Transposition } from "@/lib/score/transposition";
import type { PlacedBar } from "./finish-bars";
import type { PartDraft } from "./score-draft";

/**
 * Gives each bar the key it starts in, at sounding pitch: from the first pitched part that does not transpose, or, when
 * all do, from the first, transposed back. The key of the upper staff stands for the part. A bar before any key
 * signature has none of sharps or flats.
 */
export function fillKeys(bars: readonly PlacedBar[], parts: readonly PartDraft[]): void {
  const part = parts.find(isAtPitch) ?? parts.find(({ keys }) => keys.length > 0);
  if (!part) return;
  const keys = part.keys.filter(({ staff }) => staff === null || staff === 1);
  const keyAt = follow(keys);
  const transpositionAt = follow(part.transpositions);
  for (const bar of bars) {
    const key = keyAt(bar.start);
    const by = transpositionAt(bar.start)?.transposition ?? atPitch;
    if (key) bar.key = soundingKey({ fifths: key.fifths, mode: key.mode }, by);
  }
}

function isAtPitch(part: PartDraft): boolean {
  const isPitched = part.notes.some((notes) => notes.some(({ written }) => written !== null));
  return (
    isPitched &&
    part.keys.length > 0 &&
    part.transpositions.every(({ transposition }) => isOctave(transposition))
  );
}

function isOctave({ diatonic, chromatic }: Transposition): boolean {
  return diatonic % 7 === 0 && chromatic % 12 === 0;
}

/** Finds the last change at or before a time; to be asked in written order. */
function follow<T extends KeyChange | TranspositionChange>(
  changes: readonly T[],
): (at: Quarters) => T | null {
  let next = 0;
  return (at) => {
    for (let change = changes[next]; change && compareQuarters(change.onset, at) <= 0; change = changes[next])
      next += 1;
    return changes[next - 1] ?? null;
  };
}

/**
 * A fifth up is 7 semitones and 4 steps, so an interval of c semitones and d steps is 7c − 12d fifths up. More than
 * 7 sharps or flats are spelled the other way.
 */
function soundingKey({ fifths, mode }: KeySignature, { diatonic, chromatic }: Transposition): KeySignature {
  if (fifths === null || (diatonic === 0 && chromatic === 0)) return { fifths, mode };
  const sounding = fifths + 7 * chromatic - 12 * diatonic;
  if (!Number.isInteger(sounding)) return { fifths: null, mode };
  const spelled = Math.abs(sounding) > 7 ? sounding - Math.sign(sounding) * 12 : sounding;
  return { fifths: spelled + 0, mode };
}
