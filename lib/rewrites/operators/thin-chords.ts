import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { compareQuarters, isEqualQuarters, writeQuarters } from "@/lib/score/quarters";
import { type BarEvent, byOctaves, endOf, isChanged, midiOf, withPitches } from "../bar-event";
import { type BarToRewrite, eventsOfHand, type Hand, handOfStaff, type Operator } from "./operator";

const octave = 12;

/** Does something to every chord of a hand; null when it changes nothing. */
function toChords(
  hand: Hand,
  change: (
    pitches: readonly RewritePitch[],
    event: BarEvent,
    all: readonly BarEvent[],
  ) => readonly RewritePitch[],
): Operator["apply"] {
  return (events, bar) => {
    const changed = events.map((event) =>
      handOfStaff(event.staff, bar) === hand && event.pitches.length > 0 && event.tremolo === null
        ? withPitches(event, change(event.pitches, event, events))
        : event,
    );
    return isChanged(events, changed) ? changed : null;
  };
}

/** Whether another of these pitches is an octave or two away. */
const isDoubled = (pitch: RewritePitch, pitches: readonly RewritePitch[]) =>
  pitches.some((other) => other !== pitch && Math.abs(midiOf(other) - midiOf(pitch)) % octave === 0);

/** Octave doublings that are neither on top nor at the bottom. */
export function dropInnerDoublings(hand: Hand): Operator {
  return {
    words: "inner octave doublings left out",
    apply: toChords(hand, (pitches) =>
      pitches.filter(
        (pitch, index) => index === 0 || index === pitches.length - 1 || !isDoubled(pitch, pitches),
      ),
    ),
  };
}

/** Single notes for octaves: the melody keeps the upper, the bass the lower. */
export function singleForOctave(hand: Hand): Operator {
  const isUpper = hand === "right";
  return {
    words: isUpper ? "the upper notes of the octaves" : "the lower notes of the octaves",
    apply: toChords(hand, (pitches) => {
      const [low, high] = [pitches[0], pitches.at(-1)];
      if (!low || !high || midiOf(high) - midiOf(low) !== octave) return pitches;
      return pitches.filter((pitch) => pitch !== (isUpper ? low : high));
    }),
  };
}

/** Chords without what lies between their outer notes. */
export function outerNotes(hand: Hand): Operator {
  return {
    words: hand === "right" ? "inner notes of the chords left out" : "inner notes of the left hand left out",
    apply: toChords(hand, (pitches) =>
      pitches.length < 3
        ? pitches
        : pitches.filter((_pitch, index) => index === 0 || index === pitches.length - 1),
    ),
  };
}

/** The top line alone, or the bass alone. */
export function lineAlone(hand: Hand): Operator {
  const isUpper = hand === "right";
  return {
    words: isUpper ? "the top line alone" : "the bass alone",
    apply: toChords(hand, (pitches) =>
      pitches.length < 2 ? pitches : isUpper ? pitches.slice(-1) : pitches.slice(0, 1),
    ),
  };
}

/** What lies beyond reach comes nearer by octaves; the melody or the bass stays where it is. */
export function withinReach(hand: Hand): Operator {
  const isUpper = hand === "right";
  return {
    words: "brought within reach",
    apply: (events, bar) => {
      const ends = findEnds(events, hand, bar);
      const near = toChords(hand, (pitches, event) => {
        const { low, high } = ends.get(writeQuarters(event.offset)) as Ends;
        return bringNear(pitches, isUpper ? high : low, bar.reach[hand], isUpper);
      });
      return near(events, bar);
    },
  };
}

/** The outer keys that a hand strikes at one moment, in all its voices. */
interface Ends {
  readonly low: number;
  readonly high: number;
}

function findEnds(events: readonly BarEvent[], hand: Hand, bar: BarToRewrite): Map<string, Ends> {
  const ends = new Map<string, Ends>();
  for (const event of eventsOfHand(events, hand, bar)) {
    const [first, last] = [event.pitches[0], event.pitches.at(-1)];
    if (!first || !last || event.tremolo !== null) continue;
    const at = writeQuarters(event.offset);
    const { low, high } = ends.get(at) ?? { low: midiOf(first), high: midiOf(last) };
    ends.set(at, { low: Math.min(low, midiOf(first)), high: Math.max(high, midiOf(last)) });
  }
  return ends;
}

function bringNear(
  pitches: readonly RewritePitch[],
  anchor: number,
  reach: number,
  keepsTop: boolean,
): readonly RewritePitch[] {
  const near = pitches.map((pitch) => {
    const away = Math.abs(midiOf(pitch) - anchor);
    const octaves = Math.ceil(Math.max(0, away - reach) / octave);
    return octaves === 0 ? pitch : byOctaves(pitch, keepsTop ? octaves : -octaves);
  });
  // Two that meet on one key are one.
  return near.filter((pitch, index) => near.findIndex((other) => midiOf(other) === midiOf(pitch)) === index);
}

/** Wide chords are broken from the bottom. */
export function roll(hand: Hand): Operator {
  return {
    words: "wide chords broken",
    apply: (events, bar) => {
      const ends = findEnds(events, hand, bar);
      const changed = events.map((event) => {
        if (handOfStaff(event.staff, bar) !== hand || event.pitches.length === 0) return event;
        const { low, high } = ends.get(writeQuarters(event.offset)) ?? { low: 0, high: 0 };
        return event.tremolo === null && high - low > bar.reach[hand] ? { ...event, isRolled: true } : event;
      });
      return isChanged(events, changed) ? changed : null;
    },
  };
}

/** What the soloist plays at the same pitch is left to the soloist, where something else remains. */
export const leaveToSoloist: Operator = {
  words: "what the soloist plays is left to the soloist",
  apply: (events, bar) =>
    toChords("right", (pitches, event) => {
      const rest = pitches.filter((pitch) => !isSolo(midiOf(pitch), event, bar));
      return rest.length > 0 ? rest : pitches;
    })(events, bar),
};

function isSolo(midi: number, event: BarEvent, { solo }: BarToRewrite): boolean {
  return solo.some(
    (note) =>
      note.midi === midi &&
      isEqualQuarters(note.offset, event.offset) &&
      compareQuarters(endOf(event), note.end) <= 0,
  );
}
