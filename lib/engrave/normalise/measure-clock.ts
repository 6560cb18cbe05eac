import { child, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { addQuarters, noQuarters, type Quarters, quarters } from "@/lib/score/quarters";

/** Tells where in its bar each element of a part stands. Elements are read in order, bar by bar. */
export class MeasureClock {
  private divisions = 1;
  private place = noQuarters;

  /** Where the next element stands, from the start of the bar. */
  get at(): Quarters {
    return this.place;
  }

  beginMeasure(): void {
    this.place = noQuarters;
  }

  /** Goes past an element of the bar. */
  pass(node: XmlElement): void {
    if (node.name === "attributes") this.readDivisions(node);
    this.place = addQuarters(this.place, this.lengthOf(node));
  }

  private readDivisions(attributes: XmlElement): void {
    const divisions = Number(textOf(child(attributes, "divisions")));
    if (Number.isSafeInteger(divisions) && divisions > 0) this.divisions = divisions;
  }

  private lengthOf(node: XmlElement): Quarters {
    const isChord = node.name === "note" && (child(node, "chord") || child(node, "grace"));
    const duration = Number(textOf(child(node, "duration")));
    if (isChord || !/^(note|backup|forward)$/.test(node.name) || !Number.isInteger(duration))
      return noQuarters;
    return quarters(node.name === "backup" ? -duration : duration, this.divisions);
  }
}
