import {
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { child, childrenNamed, element, textOf, type XmlElement } from "../xml-tree";
import { insertInNote } from "./insert-in-note";

/** MusicXML 4.0, `note-type-value`, longest first, in quarter notes. */
const noteTypes: readonly (readonly [string, Quarters])[] = [
  ["breve", quarters(8)],
  ["whole", quarters(4)],
  ["half", quarters(2)],
  ["quarter", quarters(1)],
  ["eighth", quarters(1, 2)],
  ["16th", quarters(1, 4)],
  ["32nd", quarters(1, 8)],
  ["64th", quarters(1, 16)],
  ["128th", quarters(1, 32)],
];
const mostDots = 2;

/** A note value as it is printed. */
export interface NoteValue {
  readonly type: string;
  readonly dots: number;
  /** Of one note of this value, outside a tuplet. */
  readonly length: Quarters;
}

/** Every printed value, longest first. */
const noteValues: readonly NoteValue[] = noteTypes
  .flatMap(([type, length]) =>
    Array.from({ length: mostDots + 1 }, (_, dots) => ({
      type,
      dots,
      length: quarters(length.num * (2 ** (dots + 1) - 1), length.den * 2 ** dots),
    })),
  )
  .sort((a, b) => compareQuarters(b.length, a.length));

/**
 * The fewest printed values that together last `length`, longest first.
 *
 * @returns null when there is none: a length that needs a tuplet.
 */
export function splitInValues(length: Quarters): NoteValue[] | null {
  const values: NoteValue[] = [];
  let left = length;
  for (const value of noteValues) {
    // A breve may be needed more than once; everything shorter at most once.
    while (compareQuarters(value.length, left) <= 0) {
      values.push(value);
      left = subtractQuarters(left, value.length);
    }
  }
  return isEqualQuarters(left, noQuarters) ? values : null;
}

/** How a tuplet's note is written: `length` as it would be outside the tuplet. */
export function printedLength(note: XmlElement, length: Quarters): Quarters {
  const ratio = child(note, "time-modification");
  const actual = Number(textOf(ratio && child(ratio, "actual-notes"))) || 1;
  const normal = Number(textOf(ratio && child(ratio, "normal-notes"))) || 1;
  return quarters(length.num * actual, length.den * normal);
}

/** Writes a note or rest with another value; without one when no printed value is so long. */
export function setValue(note: XmlElement, value: NoteValue | null): void {
  note.children = note.children.filter(
    (node) => node.kind !== "element" || (node.name !== "type" && node.name !== "dot"),
  );
  if (!value) return;
  insertInNote(note, element("type", {}, value.type));
  for (let dot = 0; dot < value.dots; dot += 1) insertInNote(note, element("dot"));
}

/** Writes a note with the value that its length alone asks for, outside any tuplet. */
export function retypeNote(note: XmlElement, length: Quarters): void {
  for (const ratio of childrenNamed(note, "time-modification")) {
    note.children = note.children.filter((node) => node !== ratio);
  }
  const values = splitInValues(length);
  setValue(note, values?.length === 1 ? (values[0] ?? null) : null);
}
