import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { divide, joinWithNext } from "@/lib/rewrites/editing/change-length";
import { changeAlteration, shiftOctaves } from "@/lib/rewrites/editing/change-pitch";
import { deleteNotes } from "@/lib/rewrites/editing/delete-notes";
import type { Edited } from "@/lib/rewrites/editing/edit-problem";
import { eventAt, isSamePitch, type NoteChoice } from "@/lib/rewrites/editing/event-place";
import { toggleAccent, toggleRoll } from "@/lib/rewrites/editing/mark-chord";
import { moveToOtherHand } from "@/lib/rewrites/editing/move-to-other-hand";
import { setTremolo } from "@/lib/rewrites/editing/set-tremolo";
import { tieToNext } from "@/lib/rewrites/editing/tie-to-next";
import { success } from "@/lib/score/result";

/** A rewrite and what is chosen in it. */
export interface Chosen {
  readonly terms: RewriteTerms;
  readonly choice: NoteChoice;
}

/** One thing that can be done to what is chosen: a button and a key. */
export interface EditAction {
  readonly id: string;
  readonly label: string;
  /** As it stands on the button; a screen without a keyboard hides it. */
  readonly hint: string;
  /** `KeyboardEvent.key`, letters in lower case. */
  readonly keys: readonly string[];
  readonly withShift?: true;
  readonly apply: (chosen: Chosen, staffCount: number) => Edited<Chosen>;
  /** For what is on or off: whether it is on. */
  readonly isOn?: (event: RewriteEvent, choice: NoteChoice) => boolean;
}

/** Strokes of a tremolo that nobody has said anything about: as fast as it goes. Common practice. */
const usualStrokes = 3;

/** Same place, same note. */
function stay({ choice }: Chosen, edited: Edited<RewriteTerms>): Edited<Chosen> {
  return edited.ok ? success({ terms: edited.value, choice }) : edited;
}

/** Same place, all of it. */
function whole({ choice }: Chosen, edited: Edited<RewriteTerms>): Edited<Chosen> {
  return edited.ok ? success({ terms: edited.value, choice: { ...choice, pitch: null } }) : edited;
}

function byOctave(chosen: Chosen, octaves: number): Edited<Chosen> {
  const { terms, choice } = chosen;
  const { pitch } = choice;
  const edited = shiftOctaves(terms, choice, octaves);
  const moved = pitch && { ...pitch, octave: pitch.octave + octaves };
  return edited.ok ? success({ terms: edited.value, choice: { ...choice, pitch: moved } }) : edited;
}

function bySemitone(chosen: Chosen, semitones: number): Edited<Chosen> {
  const { terms, choice } = chosen;
  const { pitch } = choice;
  const edited = changeAlteration(terms, choice, semitones);
  const moved = pitch && { ...pitch, alter: pitch.alter + semitones };
  return edited.ok ? success({ terms: edited.value, choice: { ...choice, pitch: moved } }) : edited;
}

const isToAndFro = ({ tremolo }: RewriteEvent) => (tremolo?.other.length ?? 0) > 0;
const isRepeated = (event: RewriteEvent) => event.tremolo !== null && !isToAndFro(event);

function toggleTremolo(chosen: Chosen, way: "repeated" | "to and fro"): Edited<Chosen> {
  const { terms, choice } = chosen;
  const event = eventAt(terms, choice.place);
  const isOn = way === "repeated" ? isRepeated(event) : isToAndFro(event);
  const strokes = event.tremolo?.strokes ?? usualStrokes;
  return whole(chosen, setTremolo(terms, choice.place, isOn ? null : { way, strokes }));
}

function giveAway({ terms, choice }: Chosen, staffCount: number): Edited<Chosen> {
  const moved = moveToOtherHand(terms, choice, staffCount);
  if (!moved.ok) return moved;
  const { terms: written, place } = moved.value;
  return success({ terms: written, choice: { place, pitch: choice.pitch } });
}

const isTied = (event: RewriteEvent, { pitch }: NoteChoice): boolean =>
  event.tied.some((index) => {
    const own = event.pitches[index];
    return own !== undefined && (pitch === null || isSamePitch(own, pitch));
  });

/** In the order of the buttons. */
export const editActions: readonly EditAction[] = [
  {
    ...{ id: "delete", label: "Delete", hint: "Del", keys: ["delete", "backspace"] },
    apply: (chosen) => whole(chosen, deleteNotes(chosen.terms, chosen.choice)),
  },
  {
    ...{ id: "octave-up", label: "Octave up", hint: "⇧↑", keys: ["arrowup"], withShift: true },
    apply: (chosen) => byOctave(chosen, 1),
  },
  {
    ...{ id: "octave-down", label: "Octave down", hint: "⇧↓", keys: ["arrowdown"], withShift: true },
    apply: (chosen) => byOctave(chosen, -1),
  },
  {
    ...{ id: "sharpen", label: "Sharper", hint: "+", keys: ["+"] },
    apply: (chosen) => bySemitone(chosen, 1),
  },
  {
    ...{ id: "flatten", label: "Flatter", hint: "−", keys: ["-"] },
    apply: (chosen) => bySemitone(chosen, -1),
  },
  {
    ...{ id: "other-hand", label: "Other hand", hint: "H", keys: ["h"] },
    apply: giveAway,
  },
  {
    ...{ id: "tremolo", label: "Tremolo", hint: "T", keys: ["t"] },
    apply: (chosen) => toggleTremolo(chosen, "repeated"),
    isOn: isRepeated,
  },
  {
    ...{ id: "to-and-fro", label: "To and fro", hint: "O", keys: ["o"] },
    apply: (chosen) => toggleTremolo(chosen, "to and fro"),
    isOn: isToAndFro,
  },
  {
    ...{ id: "tie", label: "Tie", hint: "L", keys: ["l"] },
    apply: (chosen) => stay(chosen, tieToNext(chosen.terms, chosen.choice)),
    isOn: isTied,
  },
  {
    ...{ id: "roll", label: "Roll", hint: "R", keys: ["r"] },
    apply: (chosen) => stay(chosen, toggleRoll(chosen.terms, chosen.choice.place)),
    isOn: ({ isRolled }) => isRolled,
  },
  {
    ...{ id: "accent", label: "Accent", hint: "X", keys: ["x"] },
    apply: (chosen) => stay(chosen, toggleAccent(chosen.terms, chosen.choice.place)),
    isOn: ({ isAccented }) => isAccented,
  },
  {
    ...{ id: "longer", label: "Join with next", hint: "J", keys: ["j"] },
    apply: (chosen) => stay(chosen, joinWithNext(chosen.terms, chosen.choice.place)),
  },
  {
    ...{ id: "shorter", label: "In two", hint: "S", keys: ["s"] },
    apply: (chosen) => stay(chosen, divide(chosen.terms, chosen.choice.place)),
  },
];

/** Another number of strokes through the stem of a tremolo. */
export function withStrokes(chosen: Chosen, strokes: number): Edited<Chosen> {
  const { terms, choice } = chosen;
  const way = isToAndFro(eventAt(terms, choice.place)) ? "to and fro" : "repeated";
  return stay(chosen, setTremolo(terms, choice.place, { way, strokes }));
}
