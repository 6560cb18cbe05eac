import { parseXml } from "@/lib/musicxml/parse-xml";
import { writeXml } from "@/lib/musicxml/write-xml";
import { childElements, element, type XmlElement } from "@/lib/musicxml/xml-tree";
import type { OssiaStaff } from "./find-ossia-staves";

/**
 * Turns the staves that stand for ossias into the engraver's own ossias (MEI 5.1, `ossia`), which are drawn small over
 * just the bars that have them. Its importer of MusicXML (verovio 6.3.0) knows none.
 *
 * @returns the text unchanged when it is not the engraver's own.
 */
export function patchOssias(mei: string, ossias: readonly OssiaStaff[]): string {
  const parsed = parseXml(mei);
  if (!parsed.ok || ossias.length === 0) return mei;
  const patch = new OssiaPatch(ossias);
  patch.patch(parsed.value.root);
  return writeXml(parsed.value);
}

class OssiaPatch {
  private readonly gone: ReadonlyMap<number, OssiaStaff>;
  /** Ossias that were drawn in the measure before. */
  private running = new Set<OssiaStaff>();

  constructor(ossias: readonly OssiaStaff[]) {
    this.gone = new Map(ossias.map((ossia) => [ossia.staff, ossia]));
  }

  patch(node: XmlElement): void {
    if (node.name === "measure") {
      this.patchMeasure(node);
      return;
    }
    node.children = node.children.filter(
      (inner) => inner.kind !== "element" || inner.name !== "staffDef" || !this.isGone(inner),
    );
    for (const inner of childElements(node)) {
      if (inner.name === "staffDef") inner.attributes.n = `${this.numberOf(Number(inner.attributes.n))}`;
      this.patch(inner);
    }
    node.children = node.children.filter(
      (inner) =>
        inner.kind !== "element" || inner.name !== "staffGrp" || childElements(inner).some(isStaffOrGroup),
    );
  }

  private isGone(node: XmlElement): boolean {
    return this.gone.has(Number(node.attributes.n));
  }

  /** The number of a staff once the ossias are no staves of their own. */
  private numberOf(staff: number): number {
    return staff - [...this.gone.keys()].filter((each) => each < staff).length;
  }

  private patchMeasure(measure: XmlElement): void {
    const staves = childElements(measure).filter(({ name }) => name === "staff");
    const shown = staves.flatMap((staff) => {
      const ossia = this.gone.get(Number(staff.attributes.n));
      return ossia?.measureIds.has(measure.attributes["xml:id"] ?? "") ? [{ staff, ossia }] : [];
    });
    measure.children = measure.children.flatMap((node): XmlElement["children"] => {
      if (node.kind !== "element") return [node];
      if (node.name !== "staff") return [this.patchEvent(node)];
      if (this.isGone(node)) return [];
      const own = Number(node.attributes.n);
      node.attributes.n = `${this.numberOf(own)}`;
      this.renumberInside(node);
      const over = shown.filter(({ ossia }) => ossia.ofStaff === own);
      return [over.length > 0 ? this.drawOver(node, over) : node];
    });
    this.running = new Set(shown.map(({ ossia }) => ossia));
  }

  /** Notes that a voice has on the other staff name it. */
  private renumberInside(node: XmlElement): void {
    for (const inner of childElements(node)) {
      if (inner.attributes.staff !== undefined) this.patchStaves(inner);
      this.renumberInside(inner);
    }
  }

  private patchStaves(node: XmlElement): void {
    const numbers = (node.attributes.staff ?? "").split(/\s+/).map(Number);
    const kept = numbers.map((number) => this.numberOf(this.gone.get(number)?.ofStaff ?? number));
    node.attributes.staff = [...new Set(kept)].join(" ");
  }

  /** Clef and key stand before an ossia where it begins. */
  private drawOver(
    staff: XmlElement,
    over: readonly { readonly staff: XmlElement; readonly ossia: OssiaStaff }[],
  ): XmlElement {
    const begins = over.some(({ ossia }) => !this.running.has(ossia));
    const small = over.map(({ staff: own }) =>
      element("oStaff", { ...own.attributes, n: staff.attributes.n ?? "" }, ...own.children),
    );
    return element("ossia", begins ? { type: "show.scoredef.true" } : {}, ...small, staff);
  }

  /** Words, signs and lines name their staves; those of an ossia that stand at a note need none. */
  private patchEvent(event: XmlElement): XmlElement {
    const { staff, startid } = event.attributes;
    if (staff === undefined) return event;
    const isOfOssia = staff.split(/\s+/).some((number) => this.gone.has(Number(number)));
    if (startid !== undefined && isOfOssia) delete event.attributes.staff;
    else this.patchStaves(event);
    return event;
  }
}

const isStaffOrGroup = ({ name }: XmlElement): boolean => name === "staffDef" || name === "staffGrp";
