import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { success } from "@/lib/score/result";
import { byOctaves } from "../bar-event";
import { isRest, replaceEvents, sidesOf, withSides } from "./change-event";
import { findChordFault } from "./check-chord";
import { cannot, type Edited } from "./edit-problem";
import { eventAt, isSamePitch, type NoteChoice } from "./event-place";
import { sayPitch } from "./say-pitch";

/** MusicXML octaves that a rewrite can name. */
const [lowestOctave, highestOctave] = [0, 9];

/** Moves a note or a whole chord by octaves. @param octaves up when positive. */
export function shiftOctaves(terms: RewriteTerms, choice: NoteChoice, octaves: number): Edited<RewriteTerms> {
  return changePitch(terms, choice, (pitch) => byOctaves(pitch, octaves));
}

/** Raises or lowers one note by semitones, its name kept: D flat, D, D sharp. */
export function changeAlteration(
  terms: RewriteTerms,
  choice: NoteChoice,
  semitones: number,
): Edited<RewriteTerms> {
  return changePitch(terms, choice, (pitch) => ({ ...pitch, alter: pitch.alter + semitones }));
}

function changePitch(
  terms: RewriteTerms,
  { place, pitch }: NoteChoice,
  change: (pitch: RewritePitch) => RewritePitch,
): Edited<RewriteTerms> {
  const event = eventAt(terms, place);
  if (isRest(event)) return cannot("This is a rest: it has no pitch.");
  const changed = (each: RewritePitch) => (pitch === null || isSamePitch(each, pitch) ? change(each) : each);
  const before = sidesOf(event);
  const [pitches, other] = [before.pitches.map(changed), before.other.map(changed)];
  const unnamed = [...pitches, ...other].find(
    ({ alter, octave }) => Math.abs(alter) > 2 || octave < lowestOctave || octave > highestOctave,
  );
  if (unnamed)
    return Math.abs(unnamed.alter) > 2
      ? cannot(`${unnamed.step} cannot be altered any further.`)
      : cannot(`${sayPitch(unnamed)} is beyond the keys of a piano.`);
  const fault = findChordFault(pitches) ?? findChordFault(other);
  if (fault !== null) return cannot(fault);
  return success(replaceEvents(terms, [event], [withSides(event, { pitches, other })]));
}
