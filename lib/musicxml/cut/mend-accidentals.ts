import { compareQuarters } from "@/lib/score/quarters";
import { child, childrenNamed, element, textOf, type XmlElement } from "../xml-tree";
import { insertInNote } from "./insert-in-note";
import { hasTie } from "./mend-ties";
import { isNote, type PartEvent, staffOf } from "./part-events";
import { heldFor, type RunningAttributes } from "./running-attributes";

/** A note that needs no accidental of its own where it stands in the source. */
type Unmarked = ReadonlySet<XmlElement>;

/** MusicXML 4.0, `accidental-value`, by alteration in semitones. */
const accidentalNames: ReadonlyMap<number, string> = new Map([
  [-3, "triple-flat"],
  [-2, "flat-flat"],
  [-1.5, "three-quarters-flat"],
  [-1, "flat"],
  [-0.5, "quarter-flat"],
  [0, "natural"],
  [0.5, "quarter-sharp"],
  [1, "sharp"],
  [1.5, "three-quarters-sharp"],
  [2, "double-sharp"],
  [3, "triple-sharp"],
]);

/** A stretch of a bar, with what holds in it. */
export interface AccidentalScope {
  readonly running: RunningAttributes;
  readonly events: readonly PartEvent[];
}

/**
 * Notes of a bar whose pitch a reader gets right without an accidental: from the key, from an accidental earlier in
 * the bar, or because they are tied over.
 */
export function findUnmarked(bar: AccidentalScope): Unmarked {
  const unmarked = new Set<XmlElement>();
  readAccidentals([bar], (note, isRight) => {
    if (isRight || hasTie(note, "stop")) unmarked.add(note);
  });
  return unmarked;
}

/**
 * Writes an accidental on every note that had no need of one in the source and has now: its tie or the accidental
 * before it was cut, or another one stands before it. An accidental holds for its staff and octave until the bar ends
 * (common practice). What a source leaves unmarked without reason stays so.
 *
 * @param stretches of one bar, in the order in which they sound.
 */
export function mendAccidentals(stretches: readonly AccidentalScope[], unmarked: Unmarked): void {
  readAccidentals(stretches, (note, isRight, alter) => {
    const name = accidentalNames.get(alter);
    if (isRight || hasTie(note, "stop") || !unmarked.has(note) || name === undefined) return;
    insertInNote(note, element("accidental", {}, name));
  });
}

/** Visits the notes that carry no accidental, with whether a reader would get them right. */
function readAccidentals(
  stretches: readonly AccidentalScope[],
  visit: (note: XmlElement, isRight: boolean, alter: number) => void,
): void {
  const shown = new Map<string, number>();
  for (const { running, events } of stretches) {
    const inTime = events.toSorted((a, b) => compareQuarters(a.at, b.at) || a.order - b.order);
    for (const { node } of inTime.filter(isNote)) {
      const pitch = child(node, "pitch");
      if (!pitch) continue;
      const step = textOf(child(pitch, "step")).trim();
      const alter = Number(textOf(child(pitch, "alter"))) || 0;
      const place = `${staffOf(node)} ${step} ${textOf(child(pitch, "octave")).trim()}`;
      const expected = shown.get(place) ?? keyAlter(heldFor(running, "key", staffOf(node)), step);
      if (!child(node, "accidental")) visit(node, expected === alter, alter);
      if (child(node, "accidental")) shown.set(place, alter);
    }
  }
}

const sharpOrder = "FCGDAEB";

/** What a key signature does to a step, in semitones. */
function keyAlter(key: XmlElement | null, step: string): number {
  if (!key) return 0;
  const steps = childrenNamed(key, "key-step").map((node) => textOf(node).trim());
  if (steps.length > 0) {
    const alters = childrenNamed(key, "key-alter");
    return Number(textOf(alters[steps.indexOf(step)] ?? null)) || 0;
  }
  const fifths = Number(textOf(child(key, "fifths"))) || 0;
  const place = sharpOrder.indexOf(step);
  // Beyond seven signs a step carries two.
  if (fifths > 0) return Math.max(0, Math.ceil((fifths - place) / 7));
  return fifths < 0 ? -Math.max(0, Math.ceil((-fifths - (6 - place)) / 7)) : 0;
}
