import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { compareQuarters, isEqualQuarters } from "@/lib/score/quarters";
import { type BarEvent, byOctaves, endOf, isChanged, midiOf, upperStaff, withPitches } from "../bar-event";
import type { BarToRewrite, Operator } from "./operator";

const octave = 12;

/** Does something to every chord of a staff; null when it changes nothing. */
function toChords(
  staff: number,
  change: (
    pitches: readonly RewritePitch[],
    event: BarEvent,
    all: readonly BarEvent[],
  ) => readonly RewritePitch[],
): Operator["apply"] {
  return (events) => {
    const changed = events.map((event) =>
      event.staff === staff && event.pitches.length > 0 && event.tremolo === null
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
export function dropInnerDoublings(staff: number): Operator {
  return {
    words: "inner octave doublings left out",
    apply: toChords(staff, (pitches) =>
      pitches.filter(
        (pitch, index) => index === 0 || index === pitches.length - 1 || !isDoubled(pitch, pitches),
      ),
    ),
  };
}

/** Single notes for octaves: the melody keeps the upper, the bass the lower. */
export function singleForOctave(staff: number): Operator {
  const isUpper = staff === upperStaff;
  return {
    words: isUpper ? "the upper notes of the octaves" : "the lower notes of the octaves",
    apply: toChords(staff, (pitches) => {
      const [low, high] = [pitches[0], pitches.at(-1)];
      if (!low || !high || midiOf(high) - midiOf(low) !== octave) return pitches;
      return pitches.filter((pitch) => pitch !== (isUpper ? low : high));
    }),
  };
}

/** Chords without what lies between their outer notes. */
export function outerNotes(staff: number): Operator {
  return {
    words:
      staff === upperStaff ? "inner notes of the chords left out" : "inner notes of the left hand left out",
    apply: toChords(staff, (pitches) =>
      pitches.length < 3
        ? pitches
        : pitches.filter((_pitch, index) => index === 0 || index === pitches.length - 1),
    ),
  };
}

/** The top line alone, or the bass alone. */
export function lineAlone(staff: number): Operator {
  const isUpper = staff === upperStaff;
  return {
    words: isUpper ? "the top line alone" : "the bass alone",
    apply: toChords(staff, (pitches) =>
      pitches.length < 2 ? pitches : isUpper ? pitches.slice(-1) : pitches.slice(0, 1),
    ),
  };
}

/** What lies beyond reach comes nearer by octaves; the melody or the bass stays where it is. */
export function withinReach(staff: number): Operator {
  const isUpper = staff === upperStaff;
  return {
    words: "brought within reach",
    apply: (events, bar) => {
      const reach = isUpper ? bar.reach.right : bar.reach.left;
      return toChords(staff, (pitches) => bringNear(pitches, reach, isUpper))(events, bar);
    },
  };
}

function bringNear(
  pitches: readonly RewritePitch[],
  reach: number,
  keepsTop: boolean,
): readonly RewritePitch[] {
  const anchor = keepsTop ? pitches.at(-1) : pitches[0];
  if (!anchor) return pitches;
  const near = pitches.map((pitch) => {
    const away = Math.abs(midiOf(pitch) - midiOf(anchor));
    const octaves = Math.ceil(Math.max(0, away - reach) / octave);
    return octaves === 0 ? pitch : byOctaves(pitch, keepsTop ? octaves : -octaves);
  });
  // Two that meet on one key are one.
  return near.filter((pitch, index) => near.findIndex((other) => midiOf(other) === midiOf(pitch)) === index);
}

/** Wide chords are broken from the bottom. */
export function roll(staff: number): Operator {
  return {
    words: "wide chords broken",
    apply: (events, bar) => {
      const reach = staff === upperStaff ? bar.reach.right : bar.reach.left;
      const changed = events.map((event) => {
        const [low, high] = [event.pitches[0], event.pitches.at(-1)];
        const isWide = low && high && midiOf(high) - midiOf(low) > reach;
        return event.staff === staff && isWide ? { ...event, isRolled: true } : event;
      });
      return isChanged(events, changed) ? changed : null;
    },
  };
}

/** What the soloist plays at the same pitch is left to the soloist, where something else remains. */
export const leaveToSoloist: Operator = {
  words: "what the soloist plays is left to the soloist",
  apply: (events, bar) =>
    toChords(upperStaff, (pitches, event) => {
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
