import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { isOssia } from "@/lib/musicxml/rewrite/ossia-part";
import { child, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/**
 * Shows the rest of a bar in which a part is silent, where the file hides it: a print that leaves a staff out while it is silent
 * has files without rests there, but our staves are always there, and a bar without a rest looks like a mistake. An ossia shows
 * nothing outside its own bars. Beside notes on another staff of its part a hidden rest may stand for a hand that plays there:
 * it is left alone.
 *
 * @param tree changed in place.
 */
export function showSilentBars(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    if (isOssia(part)) continue;
    for (const measure of childrenNamed(part, "measure")) showRests(childrenNamed(measure, "note"));
  }
}

/** One on each staff. */
function showRests(notes: readonly XmlElement[]): void {
  const isSilent = notes.every((note) => child(note, "rest") && note.attributes["print-object"] === "no");
  if (!isSilent) return;
  const shown = new Set<string>();
  for (const note of notes) {
    const staff = textOf(child(note, "staff")).trim();
    if (shown.has(staff) || child(note, "rest")?.attributes.measure !== "yes") continue;
    shown.add(staff);
    delete note.attributes["print-object"];
  }
}
