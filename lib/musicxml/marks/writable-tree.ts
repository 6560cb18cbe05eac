import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, type Quarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { evenDivisions } from "../cut/even-divisions";
import { insertAt } from "../cut/insert-at";
import type { MusicXmlTree } from "../read-tree";
import { childrenNamed, cloneElement, type XmlElement } from "../xml-tree";

/** A copy of a tree that may be written into. */
export function copyTree(tree: MusicXmlTree): MusicXmlTree {
  const root = cloneElement(tree.root);
  return { ...tree, document: { ...tree.document, root }, root, parts: childrenNamed(root, "part") };
}

/** The part of that id. @throws RangeError if the tree has none. */
export function partOf(tree: MusicXmlTree, partId: string): XmlElement {
  const part = tree.parts.find(({ attributes }) => attributes.id === partId);
  if (!part) throw new RangeError(`No part of the score has the id ${partId}`);
  return part;
}

/** Every note of a part by its id. */
export function notesById(part: XmlElement): Map<string, XmlElement> {
  const notes = childrenNamed(part, "measure").flatMap((measure) => childrenNamed(measure, "note"));
  return new Map(notes.map((note) => [note.attributes.id ?? "", note]));
}

/** Every id that a tree uses. */
function idsOf(tree: MusicXmlTree): Set<string> {
  const ids = new Set<string>();
  const visit = (node: XmlElement): void => {
    if (node.attributes.id !== undefined) ids.add(node.attributes.id);
    for (const inner of node.children) if (inner.kind === "element") visit(inner);
  };
  visit(tree.root);
  return ids;
}

/** The end of a bar is the start of the next; null behind the last bar. */
export function placeIn(score: Score, { barIndex, offset }: Position): Position | null {
  const bar = score.bars[barIndex];
  if (!bar) return null;
  if (compareQuarters(offset, bar.length) < 0) return { barIndex, offset };
  return score.bars[barIndex + 1] ? { barIndex: barIndex + 1, offset: noQuarters } : null;
}

/** An element of a measure and where it is to be written. */
export interface PlacedElement {
  readonly at: Position;
  readonly node: XmlElement;
}

/** Writes elements without a duration into a part, each exactly where it belongs; of one place, in the given order. */
export function insertInPart(part: XmlElement, inserted: readonly PlacedElement[]): void {
  if (inserted.length === 0) return;
  const offsets: Quarters[] = inserted.map(({ at }) => at.offset);
  const divisions = evenDivisions(part, offsets);
  const measures = childrenNamed(part, "measure");
  // Each goes before what stands at its place: the last of a place is written first.
  for (const { at, node } of inserted.toReversed()) {
    const measure = measures[at.barIndex];
    if (measure) insertAt(measure, scaleQuarters(at.offset, divisions).num, node);
  }
}

/** Ids that no element of the tree has: a letter, the bar, then counted. */
export function idMaker(tree: MusicXmlTree, letter: string): (barIndex: number) => string {
  const taken = idsOf(tree);
  let count = 0;
  return (barIndex) => {
    let id = "";
    do {
      id = `${letter}${barIndex}-${count}`;
      count += 1;
    } while (taken.has(id));
    return id;
  };
}
