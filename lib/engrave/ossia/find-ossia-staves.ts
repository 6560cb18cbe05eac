import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { findOssias, isShownIn } from "@/lib/musicxml/rewrite/ossia-part";
import { child, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/** An ossia's staff among all staves of a score, counted from 1. */
export interface OssiaStaff {
  readonly staff: number;
  /** The staff that it is drawn over. */
  readonly ofStaff: number;
  /** Measures of the top part in which it shows anything, by id. */
  readonly measureIds: ReadonlySet<string>;
}

/** The ossias of a score as the engraver numbers its staves; none in most scores. */
export function findOssiaStaves(tree: MusicXmlTree): OssiaStaff[] {
  const ossias = findOssias(tree);
  if (ossias.length === 0) return [];
  const firstStaff = new Map<string, number>();
  let next = 1;
  for (const part of tree.parts) {
    firstStaff.set(part.attributes.id ?? "", next);
    next += staffCountOf(part);
  }
  const ids = measuresOf(tree.parts[0]).map(({ attributes }) => attributes.id ?? "");
  return ossias.map(({ part, ofPartId, ofStaff }) => ({
    staff: firstStaff.get(part.attributes.id ?? "") ?? 0,
    ofStaff: (firstStaff.get(ofPartId) ?? 0) + ofStaff - 1,
    measureIds: new Set(
      measuresOf(part).flatMap((measure, index) => (isShownIn(measure) ? [ids[index] ?? ""] : [])),
    ),
  }));
}

const measuresOf = (part: XmlElement | undefined): XmlElement[] =>
  part ? childrenNamed(part, "measure") : [];

function staffCountOf(part: XmlElement): number {
  const counts = measuresOf(part)
    .flatMap((measure) => childrenNamed(measure, "attributes"))
    .map((attributes) => Number(textOf(child(attributes, "staves"))) || 1);
  return Math.max(1, ...counts);
}
