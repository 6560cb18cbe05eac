import type { Finger } from "@/lib/hands/fingering/pair-spans";
import type { HandName } from "@/lib/hands/hands-profile";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { childrenNamed, textOf } from "@/lib/musicxml/xml-tree";
import type { Note } from "@/lib/score/note";
import { midiNumber } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, isEqualQuarters } from "@/lib/score/quarters";
import { readCorpusFile } from "./corpus-folder";

/** Notes of one hand that follow one another without a rest, and the fingers that are printed over some of them. */
export interface FingeredLine {
  readonly keys: readonly number[];
  readonly hand: HandName;
  readonly fingers: readonly (Finger | null)[];
}

/** Single lines with printed fingers in a piano part on two staves. Chords end a line, because the model is one of lines. */
export function printedFingerings(file: string): FingeredLine[] {
  const tree = readTree(readCorpusFile(file));
  if (!tree.ok) throw new Error(tree.problem.kind);
  const { score } = scoreFromTree(tree.value);
  const printed = new Map<string, Finger>();
  collect(tree.value, printed);
  const notes = score.parts.flatMap((part) => part.notes).filter(isPlayed);
  return [1, 2].flatMap((staff) =>
    linesOf(
      notes.filter((note) => note.staff === staff),
      staff,
      printed,
    ),
  );
}

/** By id of the note. */
function collect({ root }: MusicXmlTree, printed: Map<string, Finger>): void {
  const notes = childrenNamed(root, "part")
    .flatMap((part) => childrenNamed(part, "measure"))
    .flatMap((measure) => childrenNamed(measure, "note"));
  for (const note of notes) {
    const technical = childrenNamed(note, "notations").flatMap((node) => childrenNamed(node, "technical"));
    const [fingering] = technical.flatMap((node) => childrenNamed(node, "fingering"));
    const finger = Number(fingering ? textOf(fingering) : 0);
    const { id } = note.attributes;
    if (id && finger >= 1 && finger <= 5) printed.set(id, finger as Finger);
  }
}

function linesOf(
  notes: readonly Note[],
  staff: number,
  printed: ReadonlyMap<string, Finger>,
): FingeredLine[] {
  const lines: Note[][] = [];
  const isAlone = (note: Note) =>
    notes.every((other) => other === note || !isEqualQuarters(other.onset, note.onset));
  for (const note of notes.filter(isAlone)) {
    const last = lines.at(-1)?.at(-1);
    if (last && isEqualQuarters(addQuarters(last.onset, last.duration), note.onset)) lines.at(-1)?.push(note);
    else lines.push([note]);
  }
  const hand = staff === 1 ? "right" : "left";
  return lines
    .map((line) => ({
      keys: line.flatMap(({ sounding }) => (sounding ? [Math.round(midiNumber(sounding))] : [])),
      hand: hand as HandName,
      fingers: line.map(({ id }) => printed.get(id) ?? null),
    }))
    .filter(({ fingers }) => fingers.some((finger) => finger !== null));
}
