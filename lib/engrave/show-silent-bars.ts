import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { isOssia } from "@/lib/musicxml/rewrite/ossia-part";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/**
 * Shows the rest of a bar in which a part of one staff is silent, where the file hides it: a print that leaves the staff out
 * while it is silent has files without rests there, but our staff is always there, and a bar without a rest looks like
 * a mistake. An ossia shows nothing outside its own bars, and in a part of several staves a hidden rest may stand for a hand
 * that plays on the other: these are left alone.
 *
 * @param tree changed in place.
 */
export function showSilentBars(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    const measures = childrenNamed(part, "measure");
    if (isOssia(part) || measures.some(hasSeveralStaves)) continue;
    for (const measure of measures) showRest(childrenNamed(measure, "note"));
  }
}

const hasSeveralStaves = (measure: XmlElement): boolean =>
  childrenNamed(measure, "attributes").some((attributes) => Number(textOf(child(attributes, "staves"))) > 1);

function showRest(notes: readonly XmlElement[]): void {
  const isSilent = notes.every((note) => child(note, "rest") && note.attributes["print-object"] === "no");
  if (!isSilent) return;
  const whole = notes.find((note) =>
    childElements(note).some(({ name, attributes }) => name === "rest" && attributes.measure === "yes"),
  );
  if (whole) delete whole.attributes["print-object"];
}
