import { writeQuarters } from "@/lib/score/quarters";
import type { StruckNote } from "./struck-notes";

/** From one note of a rolled chord to the next, in seconds, whatever the tempo. The choice is ours; common practice 30 to 60 ms. */
const rollSeconds = 0.045;
/** A roll is over within this share of the chord's length. */
const longestShare = 0.5;

/**
 * How long the notes of rolled chords wait, in seconds: the lowest comes on its beat, the others after it from the lowest
 * up, over both staves of the part. Notes that do not wait have no entry.
 *
 * @param secondsOf how long a note is, were it not rolled.
 */
export function findRolls(
  struck: readonly StruckNote[],
  secondsOf: (note: StruckNote) => number,
): Map<StruckNote, number> {
  const chords = new Map<string, StruckNote[]>();
  for (const one of struck) {
    if (!one.note.isArpeggiated || one.isPartial) continue;
    const key = writeQuarters(one.from);
    const chord = chords.get(key);
    if (chord) chord.push(one);
    else chords.set(key, [one]);
  }
  const waits = new Map<StruckNote, number>();
  for (const chord of chords.values()) {
    const keys = [...new Set(chord.map(({ midi }) => midi))].sort((a, b) => a - b);
    const room = Math.min(...chord.map(secondsOf)) * longestShare;
    const each = Math.min(rollSeconds, room / Math.max(1, keys.length - 1));
    for (const one of chord) {
      const place = keys.indexOf(one.midi);
      if (place > 0) waits.set(one, place * each);
    }
  }
  return waits;
}
