import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import type { Note, Rest, Tremolo } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, isEqualQuarters, scaleQuarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { strokeLength } from "@/lib/score/tremolo-stroke";
import { type BarEvent, inOrder, midiOf } from "./bar-event";

/** Voices of the lower staff are numbered from here on, as notation programs do. */
const voicesOfAStaff = 4;

/**
 * What a part plays in a bar, as it is printed. Grace notes take no time and are left out; cue-size and hidden notes are
 * nobody's to play.
 *
 * @throws RangeError if the score has no such bar.
 */
export function readBarEvents(score: Score, part: Part, barIndex: number): BarEvent[] {
  const bar = score.bars[barIndex];
  if (!bar) throw new RangeError(`No bar with index ${barIndex} in a piece of ${score.bars.length} bars`);
  const notes = part.notes.filter((note) => note.barIndex === barIndex && isPlayed(note) && note.written);
  const rests = part.rests.filter((rest) => rest.barIndex === barIndex && !rest.isHidden && !rest.isCue);
  const voiceOf = numberVoices([...notes, ...rests]);
  const place = (item: Note | Rest) => ({
    offset: subtractQuarters(item.onset, bar.start),
    length: item.duration,
    staff: item.staff,
    voice: voiceOf(item),
  });
  const silent = rests
    .filter(({ duration }) => duration.num > 0)
    .map(
      (rest): BarEvent => ({
        ...place(rest),
        pitches: [],
        tied: [],
        tremolo: null,
        isRolled: false,
        isAccented: false,
      }),
    );
  const chords = chordsOf(notes).map((chord) => ({ ...place(chord[0] as Note), ...readChord(chord), chord }));
  return inOrder([...joinTremolos(chords).flatMap(writeOutTuplet), ...silent]);
}

function numberVoices(items: readonly (Note | Rest)[]): (item: Note | Rest) => number {
  const ofStaff = new Map<number, string[]>();
  for (const { staff, voice } of items) {
    const voices = ofStaff.get(staff) ?? [];
    if (!voices.includes(voice)) voices.push(voice);
    ofStaff.set(staff, voices);
  }
  for (const voices of ofStaff.values()) voices.sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return ({ staff, voice }) =>
    Math.min(voicesOfAStaff, (ofStaff.get(staff)?.indexOf(voice) ?? 0) + 1) +
    voicesOfAStaff * (staff > 1 ? 1 : 0);
}

/** Notes of one staff and voice that begin together. */
function chordsOf(notes: readonly Note[]): Note[][] {
  const chords: Note[][] = [];
  for (const note of notes) {
    const chord = chords.find(
      ([first]) =>
        first?.staff === note.staff && first.voice === note.voice && isEqualQuarters(first.onset, note.onset),
    );
    if (chord) chord.push(note);
    else chords.push([note]);
  }
  return chords;
}

function readChord(
  chord: readonly Note[],
): Pick<BarEvent, "pitches" | "tied" | "tremolo" | "isRolled" | "isAccented"> {
  const sorted = [...chord].sort((a, b) => midiOf(toTerms(a.written)) - midiOf(toTerms(b.written)));
  const marks = Math.max(...sorted.map(({ tremolo }) => marksOf(tremolo)));
  return {
    pitches: sorted.map(({ written }) => toTerms(written)),
    tied: sorted.flatMap(({ tieStart }, index) => (tieStart ? [index] : [])),
    tremolo: marks > 0 ? { strokes: Math.min(4, marks), other: [] } : null,
    isRolled: sorted.some(({ isArpeggiated }) => isArpeggiated),
    isAccented: sorted.some(({ articulations }) =>
      articulations.some((name) => name === "accent" || name === "strong-accent"),
    ),
  };
}

/** Of a note or chord that is repeated; an unmeasured tremolo is written with three. Common practice. */
function marksOf(tremolo: Tremolo | null): number {
  if (tremolo === null || tremolo.type === "start" || tremolo.type === "stop") return 0;
  return tremolo.type === "unmeasured" ? 3 : tremolo.marks;
}

/** Quarter tones have no key on a piano: the nearest one. */
function toTerms(pitch: Pitch | null): RewritePitch {
  const { step, alter, octave } = pitch ?? { step: "C", alter: 0, octave: 4 };
  return {
    step,
    alter: Math.max(-2, Math.min(2, Math.round(alter))),
    octave: Math.max(0, Math.min(9, octave)),
  };
}

type Chord = BarEvent & { readonly chord: readonly Note[] };

/** The two sides of a tremolo are one event. */
function joinTremolos(chords: readonly Chord[]): Chord[] {
  const second = new Set<Chord>();
  const joined = chords.map((first): Chord => {
    const start = first.chord.find(({ tremolo }) => tremolo?.type === "start")?.tremolo;
    if (!start) return first;
    const end = addQuarters(first.offset, first.length);
    const other = chords.find(
      (chord) =>
        chord.staff === first.staff && chord.voice === first.voice && isEqualQuarters(chord.offset, end),
    );
    if (!other) return first;
    second.add(other);
    const length = addQuarters(first.length, other.length);
    return {
      ...first,
      length,
      tremolo: { strokes: Math.max(1, Math.min(4, start.marks)), other: other.pitches },
    };
  });
  return joined.filter((_event, index) => !second.has(chords[index] as Chord));
}

/** Strokes in a tuplet one by one, because the sign of an event means halves, quarters and so on. */
function writeOutTuplet({ chord, ...event }: Chord): BarEvent[] {
  const tremolo = chord.find((note) => note.tremolo?.tuplet)?.tremolo;
  if (!tremolo || event.tremolo === null) return [event];
  const length = strokeLength(event.length, tremolo);
  const count = (event.length.num * length.den) / (event.length.den * length.num);
  if (!Number.isInteger(count)) return [event];
  return Array.from({ length: count }, (_, index) => ({
    ...event,
    ...{ offset: addQuarters(event.offset, scaleQuarters(length, index)), length, tremolo: null },
    tied: index === count - 1 ? event.tied : [],
    isRolled: index === 0 && event.isRolled,
    isAccented: index === 0 && event.isAccented,
  }));
}

/** Whether a bar has anything that a rewrite cannot write: grace notes of a player's. */
export function hasGraceNotes(part: Part, barIndex: number): boolean {
  return part.notes.some(
    (note) => note.barIndex === barIndex && note.isGrace && !note.isCue && !note.isHidden,
  );
}
