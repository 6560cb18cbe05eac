import { beatOf } from "@/lib/score/beat-of";
import { addQuarters, noQuarters, scaleQuarters } from "@/lib/score/quarters";
import type { LaneNote } from "./lanes";
import type { Heard } from "./listen";

/** Notes that lead to a place: an entry after a rest in the last half bar, or a slur that begins there and leads across. */
export interface Upbeat {
  /** In ticks. */
  readonly from: number;
  readonly noteIds: readonly string[];
}

/** What a staff plays in the stretch, if it enters there after silence and plays on across the place. */
function entryOf(notes: readonly LaneNote[], start: number, time: number, rest: number): LaneNote[] {
  const inside = notes.filter(({ onset }) => onset >= start && onset < time);
  const first = inside[0];
  if (!first) return [];
  const isSilentBefore = !notes.some(({ onset, end }) => onset < first.onset && end > first.onset - rest);
  const goesOn = notes.some(({ onset }) => onset >= time && onset <= time + rest);
  return isSilentBefore && goesOn ? inside : [];
}

/**
 * The upbeat to a place; null when the music begins with it, or simply goes on. Only the highest staff that leads in
 * counts as a melody.
 */
export function findUpbeat(heard: Heard, barIndex: number, time: number): Upbeat | null {
  const bar = heard.score.bars[barIndex];
  if (!bar || time <= 0) return null;
  const { sides } = heard;
  const beat = sides.ticks(addQuarters(noQuarters, beatOf(bar.metre)));
  const reach = Math.min(time, sides.ticks(scaleQuarters(bar.metreLength, 1, 2)));
  const around = sides.notesBetween(Math.max(0, time - 3 * reach), time + 2 * beat);
  const byLane = sides.lanes.lanes.map((_, lane) =>
    around.filter((note) => note.lane === lane).sort((a, b) => a.onset - b.onset),
  );
  const entries = byLane
    .map((notes) => entryOf(notes, time - reach, time, beat))
    .filter(({ length }) => length > 0);
  const leading = entries.toSorted((a, b) => (b[0]?.midi ?? 0) - (a[0]?.midi ?? 0))[0];
  return leading ? { from: leading[0]?.onset ?? time, noteIds: leading.map(({ id }) => id) } : null;
}
