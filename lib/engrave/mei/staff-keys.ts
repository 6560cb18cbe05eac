import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/** Where keys change: for each staff of the score, counted from 1 over all parts, the sharps (or flats, negative). */
export interface KeyChange {
  readonly measureId: string;
  readonly fifthsOfStaff: ReadonlyMap<number, number>;
}

/**
 * The key changes after the first bar of a score in which staves have different keys, as with a transposing
 * instrument; none when every staff changes as the first does, which is all that the engraver's importer
 * (verovio 6.3.0) reads.
 */
export function findStaffKeys(tree: MusicXmlTree): KeyChange[] {
  const byBar = new Map<number, Map<number, number>>();
  let firstStaff = 1;
  for (const part of tree.parts) {
    const count = readKeys(part, firstStaff, byBar);
    firstStaff += count;
  }
  const staffCount = firstStaff - 1;
  const ids = childrenNamed(tree.parts[0] ?? emptyPart, "measure").map(
    (measure) => measure.attributes.id ?? "",
  );
  const changes = [...byBar]
    .filter(([bar]) => bar > 0)
    .sort(([a], [b]) => a - b)
    .map(([bar, fifthsOfStaff]) => ({ measureId: ids[bar] ?? "", fifthsOfStaff }));
  return changes.every((change) => isCommon(change, staffCount)) ? [] : changes;
}

const emptyPart: XmlElement = { kind: "element", name: "part", attributes: {}, children: [] };

function isCommon({ fifthsOfStaff }: KeyChange, staffCount: number): boolean {
  return fifthsOfStaff.size === staffCount && new Set(fifthsOfStaff.values()).size === 1;
}

/** Takes the keys of a part into the table; returns how many staves it has. */
function readKeys(part: XmlElement, firstStaff: number, byBar: Map<number, Map<number, number>>): number {
  const measures = childrenNamed(part, "measure");
  const all = measures.flatMap((measure, bar) =>
    childrenNamed(measure, "attributes").map((attributes) => ({ bar, attributes })),
  );
  const count = Math.max(1, ...all.map(({ attributes }) => Number(textOf(child(attributes, "staves"))) || 1));
  for (const { bar, attributes } of all) {
    for (const key of childElements(attributes).filter(({ name }) => name === "key")) {
      const fifths = Number(textOf(child(key, "fifths")));
      if (!child(key, "fifths") || !Number.isInteger(fifths)) continue;
      const here = byBar.get(bar) ?? new Map<number, number>();
      const staves = key.attributes.number
        ? [Number(key.attributes.number)]
        : Array.from({ length: count }, (_, index) => index + 1);
      for (const staff of staves) here.set(firstStaff + staff - 1, fifths);
      byBar.set(bar, here);
    }
  }
  return count;
}
