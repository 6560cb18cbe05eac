import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { compareQuarters, isEqualQuarters } from "@/lib/score/quarters";
import { type BarEvent, endOf, inOrder, isRest, midiOf, withPitches } from "../bar-event";
import { handOfStaff, type Operator } from "./operator";

const upperStaff = 1;
/** A voice of the other staff that its own music does not use. */
const freeVoice = (staff: number) => (staff === upperStaff ? 4 : 8);

/** Notes on the wrong side of the line that lies best go to the other hand. */
export const toTheOtherHand: Operator = {
  words: "notes given to the other hand",
  apply: (events, bar) => {
    const { rightFromMidi, staffCount } = bar;
    // Where both hands play from one staff, none is the other's.
    if (rightFromMidi === null || staffCount < 2) return null;
    let shared: BarEvent[] | null = null;
    for (const event of events) {
      if (isRest(event) || event.tremolo !== null) continue;
      const isLeft = handOfStaff(event.staff, bar) === "left";
      const staff = isLeft ? upperStaff : staffCount;
      const leaves = (pitch: RewritePitch) =>
        isLeft ? midiOf(pitch) >= rightFromMidi : midiOf(pitch) < rightFromMidi;
      const leaving = event.pitches.filter(leaves);
      if (leaving.length === 0) continue;
      const given = give(shared ?? [...events], event, leaving, staff);
      if (given === null) return null;
      shared = given;
    }
    return shared && inOrder(shared);
  },
};

/** The events with some pitches of one moved to the other staff; null when that staff has no room. */
function give(
  events: readonly BarEvent[],
  event: BarEvent,
  leaving: readonly RewritePitch[],
  staff: number,
): BarEvent[] | null {
  const moved: BarEvent = { ...withPitches(event, leaving), staff, voice: freeVoice(staff), tied: [] };
  const left = withPitches(
    event,
    event.pitches.filter((pitch) => !leaving.includes(pitch)),
  );
  const rest = events.filter((other) => other !== event);
  const partner = rest.find(
    (other) =>
      other.staff === staff &&
      other.tremolo === null &&
      isEqualQuarters(other.offset, event.offset) &&
      isEqualQuarters(other.length, event.length),
  );
  if (partner) {
    const joined = {
      ...withPitches(partner, [...partner.pitches, ...leaving]),
      isAccented: partner.isAccented || event.isAccented,
    };
    return [...rest.filter((other) => other !== partner), left, joined];
  }
  const isTaken = rest.some(
    (other) => other.voice === moved.voice && other.staff === staff && overlaps(other, moved),
  );
  return isTaken ? null : [...rest, left, moved];
}

const overlaps = (a: BarEvent, b: BarEvent) =>
  compareQuarters(a.offset, endOf(b)) < 0 && compareQuarters(b.offset, endOf(a)) < 0;
