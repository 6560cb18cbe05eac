import type { MusicXmlTree } from "../read-tree";
import { child, childrenNamed, textOf, type XmlElement } from "../xml-tree";

/** A staff of its own on which rewrites of one staff of a part are shown. */
export interface OssiaPart {
  readonly part: XmlElement;
  /** The part that it stands beside. */
  readonly ofPartId: string;
  /** The staff of that part, from 1. */
  readonly ofStaff: number;
}

const form = /^ossia-(\d+)-(.+)$/s;

export const ossiaId = (partId: string, staff: number): string => `ossia-${staff}-${partId}`;

/** The id of the part beside which an ossia of that id stands; null for every other part. */
export const ossiaOf = (partId: string | undefined): string | null => form.exec(partId ?? "")?.[2] ?? null;

/**
 * The ossias of a tree, known by `staff-type` (MusicXML 4.0: "ossia") and an id that names the staff they belong to; of
 * those whose part is there.
 */
export function findOssias(tree: Pick<MusicXmlTree, "parts">): OssiaPart[] {
  const ids = new Set(tree.parts.map(({ attributes }) => attributes.id ?? ""));
  return tree.parts.flatMap((part) => {
    const [, staff = "", ofPartId = ""] = form.exec(part.attributes.id ?? "") ?? [];
    return isOssia(part) && ids.has(ofPartId) ? [{ part, ofPartId, ofStaff: Number(staff) }] : [];
  });
}

export function isOssia(part: XmlElement): boolean {
  const [first] = childrenNamed(part, "measure");
  return (first ? childrenNamed(first, "attributes") : []).some((attributes) =>
    childrenNamed(attributes, "staff-details").some(
      (details) => textOf(child(details, "staff-type")).trim() === "ossia",
    ),
  );
}

/** Whether an ossia shows anything in a bar. */
export function isShownIn(measure: XmlElement): boolean {
  return childrenNamed(measure, "note").some((note) => note.attributes["print-object"] !== "no");
}
