import type { Note, Rest } from "@/lib/score/note";
import { noQuarters, type Quarters } from "@/lib/score/quarters";
import { soundingPitch } from "@/lib/score/transposition";
import type { MeasureState } from "./measure-state";
import { type NoteElement, readNoteElement } from "./note-element";
import { lengthOfNoteValue } from "./note-type";
import type { Draft } from "./score-draft";
import type { XmlElement } from "./xml-tree";

/** Places a `note` element: gives it its onset and length, moves on, and tells what did not fit. */
export function takeNote(element: XmlElement, state: MeasureState): void {
  const note = readNoteElement(element);
  const id = element.attributes.id ?? "";
  const staff = state.staffOf(note.staff) ?? 1;
  const isChordMember = note.isChordMember && joinsChord(note, state);
  const onset = isChordMember ? (state.chordOnset ?? state.at) : state.at;
  if (!isChordMember) state.chordOnset = note.kind === "note" ? onset : null;
  takeDynamics(note, state, onset, staff);
  if (note.kind === "rest") takeRest(note, state, id, onset, staff);
  else takeSound(note, state, id, onset, staff, isChordMember);
}

function joinsChord(note: NoteElement, state: MeasureState): boolean {
  if (state.chordOnset !== null && note.kind === "note") return true;
  state.tell("chord-without-note", "A chord note follows no note; it was read as a note of its own.");
  return false;
}

function takeSound(
  note: NoteElement,
  state: MeasureState,
  id: string,
  onset: Quarters,
  staff: number,
  isChordMember: boolean,
): void {
  tellPitchFault(note, state);
  const duration = note.isGrace ? noQuarters : lengthOf(note, state);
  const sung = state.part.firstVerse.textIn(note.lyrics);
  if (note.lyrics.length > 0) state.draft.hasLyrics = true;
  const transposition = state.part.transpositionOf(staff);
  const drafted: Draft<Note> = {
    id,
    barIndex: state.barIndex,
    onset,
    duration,
    written: note.pitch,
    sounding: note.pitch && soundingPitch(note.pitch, transposition),
    voice: note.voice,
    staff,
    isChordMember,
    isGrace: note.isGrace,
    isCue: note.isCue,
    isHidden: note.isHidden,
    tieStart: note.tieStart,
    tieStop: note.tieStop,
    tremolo: tremoloOf(note),
    articulations: note.articulations,
    ornaments: note.ornaments,
    hasFermata: note.hasFermata,
    isArpeggiated: note.isArpeggiated,
    slurs: note.slurs,
    lyric: sung === null ? null : state.clip(sung),
  };
  state.draft.notes[state.barIndex]?.push(drafted);
  if (!isChordMember && !note.isGrace) state.advance(duration);
}

/** With the tuplet that a repeated note stands in. A tremolo to and fro is written as two in the time of one, which is none. */
function tremoloOf({ tremolo, isGrace, actual, normal }: NoteElement): Note["tremolo"] {
  if (tremolo === null || isGrace || !isTuplet(actual, normal)) return tremolo;
  return tremolo.type === "start" || tremolo.type === "stop"
    ? tremolo
    : { ...tremolo, tuplet: { actual, normal } };
}

const mostInTuplet = 64;
const isTuplet = (actual: number, normal: number): boolean =>
  actual !== normal &&
  [actual, normal].every((count) => Number.isInteger(count) && count >= 1 && count <= mostInTuplet);

function tellPitchFault({ pitchFault }: NoteElement, state: MeasureState): void {
  if (pitchFault === "pitch") {
    state.tell("pitch-unreadable", "A note's pitch cannot be read; the note was kept without one.");
  } else if (pitchFault === "alter") {
    state.tell("alteration-unreadable", "A note's alteration cannot be read; it was left out.");
  }
}

function takeRest(note: NoteElement, state: MeasureState, id: string, onset: Quarters, staff: number): void {
  if (note.isGrace) return;
  const isWholeBar = note.wholeBar === "yes" || isUntypedWholeBar(note, state, onset);
  const written = note.duration === null ? null : state.part.lengthOf(note.duration);
  const isSane = written !== null && written.num > 0;
  const duration = isWholeBar && !isSane ? noQuarters : lengthOf(note, state);
  const rest: Draft<Rest> = {
    id,
    barIndex: state.barIndex,
    // The bar's own rest starts with the bar, also where a backup before it was forgotten.
    onset: isWholeBar ? noQuarters : onset,
    duration,
    voice: note.voice,
    staff,
    isCue: note.isCue,
    isHidden: note.isHidden,
    isWholeBar,
    hasFermata: note.hasFermata,
  };
  state.draft.rests[state.barIndex]?.push(rest);
  if (isWholeBar) {
    state.bar.wholeBarRests.push({ rest, written: isSane ? written : null, partIndex: state.part.partIndex });
  }
  state.advance(duration, !isWholeBar);
}

/** A rest at the start of a bar that gives no type is the bar's own, unless it says that it is not. */
function isUntypedWholeBar(note: NoteElement, state: MeasureState, onset: Quarters): boolean {
  return note.wholeBar === null && note.type === null && onset.num === 0 && state.isAlone(note.voice);
}

/** The length that the file gives; when it is missing or impossible, the one that is drawn; else none. */
function lengthOf(note: NoteElement, state: MeasureState): Quarters {
  const given = note.duration === null ? null : state.part.lengthOf(note.duration);
  if (given !== null && given.num > 0) return given;
  if (given !== null && given.num === 0) {
    state.tell("duration-zero", "A note that is no grace note has no duration; it takes no time.");
    return noQuarters;
  }
  const drawn = note.type === null ? null : lengthOfNoteValue({ ...note, type: note.type });
  const instead = drawn === null ? "it takes no time" : "the drawn note value was taken";
  state.tell("duration-unreadable", `A note's duration is missing or impossible; ${instead}.`);
  return drawn ?? noQuarters;
}

function takeDynamics(note: NoteElement, state: MeasureState, onset: Quarters, staff: number): void {
  for (const mark of note.dynamics) {
    state.draft.directions.push({ kind: "dynamic", barIndex: state.barIndex, onset, staff, mark });
  }
}
