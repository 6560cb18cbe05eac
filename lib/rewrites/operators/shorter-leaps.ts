import { compareQuarters } from "@/lib/score/quarters";
import { type BarEvent, byOctaves, midiOf, withPitches } from "../bar-event";
import { eventsOfHand, type Hand, type Operator } from "./operator";

const octave = 12;

/** What lies more than an octave away from what the hand has just played comes an octave nearer; melody and bass stay. */
export function shorterLeaps(hand: Hand): Operator {
  const isUpper = hand === "right";
  return {
    words: isUpper ? "leaps an octave shorter" : "leaps of the left hand an octave shorter",
    apply: (events, bar) => {
      const moved = new Map<BarEvent, BarEvent>();
      let before: BarEvent | null = null;
      for (const event of eventsOfHand(events, hand, bar).sort((a, b) =>
        compareQuarters(a.offset, b.offset),
      )) {
        if (event.pitches.length === 0 || event.tremolo !== null) continue;
        const nearer: BarEvent = before ? comeNear(before, event, isUpper) : event;
        if (nearer !== event) moved.set(event, nearer);
        before = nearer;
      }
      return moved.size === 0 ? null : events.map((event) => moved.get(event) ?? event);
    },
  };
}

function comeNear(before: BarEvent, event: BarEvent, keepsTop: boolean): BarEvent {
  const [low, high] = [event.pitches[0], event.pitches.at(-1)];
  const [lowBefore, highBefore] = [before.pitches[0], before.pitches.at(-1)];
  if (!low || !high || !lowBefore || !highBefore) return event;
  const gap = keepsTop ? midiOf(lowBefore) - midiOf(high) : midiOf(low) - midiOf(highBefore);
  if (gap <= octave) return event;
  return withPitches(
    event,
    event.pitches.map((pitch) => byOctaves(pitch, keepsTop ? 1 : -1)),
  );
}
