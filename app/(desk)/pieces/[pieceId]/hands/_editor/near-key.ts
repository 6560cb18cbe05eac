import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { eventAt, type NoteChoice } from "@/lib/rewrites/editing/event-place";
import { midiNumber } from "@/lib/score/pitch";
import { comparePositions } from "@/lib/score/position";

/** Where a hand is when nothing tells: c5 and c3. */
const restingKeys: readonly [number, number] = [72, 48];

/** The key that a note added by its letter is near to: the chosen note, the highest of the chord, or what the hand played last. */
export function nearKey(terms: RewriteTerms, { place, pitch }: NoteChoice): number {
  if (pitch) return midiNumber(pitch);
  const event = eventAt(terms, place);
  const ofStaff = terms.events.filter(({ staff, pitches }) => staff === place.staff && pitches.length > 0);
  const before = ofStaff.findLast(({ at }) => comparePositions(toPosition(at), toPosition(event.at)) <= 0);
  const chord = event.pitches.length > 0 ? event : (before ?? ofStaff[0]);
  const highest = chord?.pitches.at(-1);
  return highest ? midiNumber(highest) : restingKeys[place.staff === 1 ? 0 : 1];
}
