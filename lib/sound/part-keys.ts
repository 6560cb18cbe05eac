import type { ScheduledNote } from "./schedule";

/** A key needs this long to come up before it is struck again, in seconds. The choice is ours. */
const releaseSeconds = 0.012;

/**
 * Notes of one key of one channel, so that each can be struck: unisons are one note, the longest and loudest of them, and
 * a note ends a little before its key is struck again. A note that has no time to sound is none.
 *
 * @returns by onset, then from low to high.
 */
export function partKeys(notes: readonly ScheduledNote[]): ScheduledNote[] {
  const byKey = new Map<number, ScheduledNote[]>();
  for (const note of notes) {
    if (note.endSeconds <= note.onsetSeconds) continue;
    const key = note.channel * 128 + note.midi;
    const same = byKey.get(key);
    if (same) same.push(note);
    else byKey.set(key, [note]);
  }
  return [...byKey.values()]
    .flatMap(partKey)
    .sort((a, b) => a.onsetSeconds - b.onsetSeconds || a.channel - b.channel || a.midi - b.midi);
}

function partKey(same: readonly ScheduledNote[]): ScheduledNote[] {
  const parted: ScheduledNote[] = [];
  for (const note of same.toSorted((a, b) => a.onsetSeconds - b.onsetSeconds)) {
    const last = parted.at(-1);
    if (last && note.onsetSeconds - last.onsetSeconds < 1e-6) {
      parted[parted.length - 1] = {
        ...last,
        endSeconds: Math.max(last.endSeconds, note.endSeconds),
        velocity: Math.max(last.velocity, note.velocity),
      };
      continue;
    }
    if (last && last.endSeconds > note.onsetSeconds - releaseSeconds) {
      const half = (last.onsetSeconds + note.onsetSeconds) / 2;
      const endSeconds = Math.min(last.endSeconds, Math.max(half, note.onsetSeconds - releaseSeconds));
      parted[parted.length - 1] = { ...last, endSeconds };
    }
    parted.push(note);
  }
  return parted;
}
