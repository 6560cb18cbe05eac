import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import { addQuarters, type Quarters, scaleQuarters } from "@/lib/score/quarters";
import { element, type XmlElement } from "../xml-tree";
import type { Beam } from "./beam-pieces";
import { isRestEvent, isTwoNoteTremolo, type WrittenPiece } from "./written-piece";

/** A note of a rewrite and its place in the bar; members of a chord stand at the place of its first note. */
export interface PlacedNote {
  readonly node: XmlElement;
  readonly at: Quarters;
  readonly length: Quarters;
}

export interface NoteWriting {
  readonly divisions: number;
  readonly voice: string;
  /** Null in a part of one staff. */
  readonly staff: number | null;
  /** A new id for the next note. */
  readonly nextId: () => string;
}

/** The `note` elements of a piece: one for each pitch, in a tremolo to and fro for those of both chords. */
export function writeNotes(piece: WrittenPiece, beams: readonly Beam[], writing: NoteWriting): PlacedNote[] {
  const { event, at, length } = piece;
  if (isRestEvent(event)) return [{ node: writeRest(piece, writing), at, length }];
  if (!isTwoNoteTremolo(event)) {
    const chord = { pitches: event.terms.pitches, at, length, side: null };
    return writeChord(piece, chord, beams, writing);
  }
  const half = scaleQuarters(length, 1, 2);
  const other = event.terms.tremolo?.other ?? [];
  return [
    ...writeChord(piece, { pitches: event.terms.pitches, at, length: half, side: "start" }, [], writing),
    ...writeChord(
      piece,
      { pitches: other, at: addQuarters(at, half), length: half, side: "stop" },
      [],
      writing,
    ),
  ];
}

interface Chord {
  readonly pitches: readonly RewritePitch[];
  readonly at: Quarters;
  readonly length: Quarters;
  /** Of a tremolo to and fro. */
  readonly side: "start" | "stop" | null;
}

const text = (name: string, value: string | number): XmlElement => element(name, {}, `${value}`);

function writeRest(piece: WrittenPiece, writing: NoteWriting): XmlElement {
  const rest = element("rest", piece.isBarRest ? { measure: "yes" } : {});
  const notations = tupletMarks(piece, "both");
  return element(
    "note",
    { id: writing.nextId() },
    rest,
    text("duration", ticks(piece.length, writing)),
    text("voice", writing.voice),
    ...writeValue(piece, null),
    ...staffOf(writing),
    ...(notations.length > 0 ? [element("notations", {}, ...notations)] : []),
  );
}

function writeChord(
  piece: WrittenPiece,
  chord: Chord,
  beams: readonly Beam[],
  writing: NoteWriting,
): PlacedNote[] {
  return chord.pitches.map((pitch, index) => {
    const ties = tiesOf(piece, chord, index);
    const isLead = index === 0;
    const notations = [
      ...ties.map((type) => element("tied", { type })),
      ...(isLead ? leadNotations(piece, chord) : []),
      ...(piece.isFirst && chord.side !== "stop" && piece.event.terms.isRolled
        ? [element("arpeggiate")]
        : []),
    ];
    const node = element(
      "note",
      { id: writing.nextId() },
      ...(isLead ? [] : [element("chord")]),
      writePitch(pitch),
      text("duration", ticks(chord.length, writing)),
      ...ties.map((type) => element("tie", { type })),
      text("voice", writing.voice),
      ...writeValue(piece, chord.side),
      ...staffOf(writing),
      ...(isLead ? beams.map((beam, level) => element("beam", { number: `${level + 1}` }, beam)) : []),
      ...(notations.length > 0 ? [element("notations", {}, ...notations)] : []),
    );
    return { node, at: chord.at, length: chord.length };
  });
}

/** Whether a pitch is held over from the piece before or into the next, within its event or beyond it. */
function tiesOf(
  { event, isFirst, isLast }: WrittenPiece,
  { side }: Chord,
  index: number,
): ("stop" | "start")[] {
  if (side === "stop") return [];
  const isFrom = isFirst ? event.tiedFrom.has(index) : side === null;
  const isTo = side === null && (isLast ? event.tiedTo.has(index) : true);
  return [...(isFrom ? (["stop"] as const) : []), ...(isTo ? (["start"] as const) : [])];
}

function leadNotations(piece: WrittenPiece, { side }: Chord): XmlElement[] {
  const { tremolo, isAccented } = piece.event.terms;
  const ends = { start: "first", stop: "second" } as const;
  const marks = tupletMarks(piece, side === null ? "both" : ends[side]);
  if (tremolo)
    marks.push(
      element("ornaments", {}, element("tremolo", { type: side ?? "single" }, `${tremolo.strokes}`)),
    );
  if (isAccented && piece.isFirst && side !== "stop")
    marks.push(element("articulations", {}, element("accent")));
  return marks;
}

/** The bracket begins on the first note of a piece and ends on its last. */
function tupletMarks({ tuplet }: WrittenPiece, which: "first" | "second" | "both"): XmlElement[] {
  const isHere = tuplet === "start" ? which !== "second" : which !== "first";
  return tuplet && isHere ? [element("tuplet", { type: tuplet })] : [];
}

/** Each note of a tremolo to and fro is printed with the value of both: two in the time of one. */
function writeValue({ value, ratio }: WrittenPiece, side: Chord["side"]): XmlElement[] {
  if (!value) return [];
  const actual = (ratio?.actual ?? 1) * (side ? 2 : 1);
  const normal = ratio?.normal ?? 1;
  const modification = element(
    "time-modification",
    {},
    text("actual-notes", actual),
    text("normal-notes", normal),
  );
  return [
    text("type", value.type),
    ...Array.from({ length: value.dots }, () => element("dot")),
    ...(actual === normal ? [] : [modification]),
  ];
}

function writePitch({ step, alter, octave }: RewritePitch): XmlElement {
  return element(
    "pitch",
    {},
    text("step", step),
    ...(alter === 0 ? [] : [text("alter", alter)]),
    text("octave", octave),
  );
}

const staffOf = ({ staff }: NoteWriting): XmlElement[] => (staff === null ? [] : [text("staff", staff)]);
const ticks = (length: Quarters, { divisions }: NoteWriting): number => scaleQuarters(length, divisions).num;
