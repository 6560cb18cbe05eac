import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { compareQuarters, isEqualQuarters, laterOf, noQuarters, type Quarters } from "@/lib/score/quarters";
import { MeasureClock } from "./measure-clock";

interface PlacedClef {
  readonly clef: XmlElement;
  readonly attributes: XmlElement;
  readonly staff: string;
  readonly at: Quarters;
}

/**
 * Leaves out a clef behind the last note of its staff in a bar when another stands at the start of the next: no note is read by
 * it, and the engraver (verovio 6.3.0) prints the two over each other. The other goes too where it only brings back what held
 * before.
 *
 * @param tree changed in place.
 */
export function dropVoidClefs(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    const clock = new MeasureClock();
    const holding = new Map<string, string>();
    let atEnd: PlacedClef[] = [];
    for (const measure of childrenNamed(part, "measure")) {
      const { clefs, lastNotes } = readClefs(measure, clock);
      for (const last of atEnd) meet(last, clefs, holding);
      atEnd = clefs.filter(({ at, staff }) => {
        const lastNote = lastNotes.get(staff);
        return !isAtStart(at) && (!lastNote || compareQuarters(at, lastNote) > 0);
      });
      for (const placed of clefs) if (!atEnd.includes(placed)) holding.set(placed.staff, nameOf(placed.clef));
    }
  }
}

/** The last clef of a bar, and what the next bar begins with. */
function meet(last: PlacedClef, next: readonly PlacedClef[], holding: Map<string, string>): void {
  const first = next.find(({ staff, at }) => staff === last.staff && isAtStart(at));
  if (!first) {
    holding.set(last.staff, nameOf(last.clef));
    return;
  }
  remove(last);
  if (holding.get(last.staff) === nameOf(first.clef)) remove(first);
}

const isAtStart = (at: Quarters): boolean => isEqualQuarters(at, noQuarters);

function remove({ attributes, clef }: PlacedClef): void {
  attributes.children = attributes.children.filter((node) => node !== clef);
}

/** The clefs of a bar, and where the last note or rest of each staff begins. */
function readClefs(measure: XmlElement, clock: MeasureClock) {
  const clefs: PlacedClef[] = [];
  const lastNotes = new Map<string, Quarters>();
  clock.beginMeasure();
  for (const node of childElements(measure)) {
    if (node.name === "attributes") {
      for (const clef of childrenNamed(node, "clef"))
        clefs.push({ clef, attributes: node, staff: clef.attributes.number ?? "1", at: clock.at });
    }
    if (node.name === "note" && !child(node, "chord")) {
      const staff = textOf(child(node, "staff")).trim() || "1";
      lastNotes.set(staff, laterOf(lastNotes.get(staff) ?? noQuarters, clock.at));
    }
    clock.pass(node);
  }
  return { clefs, lastNotes };
}

const nameOf = (clef: XmlElement): string =>
  ["sign", "line", "clef-octave-change"].map((name) => textOf(child(clef, name)).trim()).join(" ");
