import type { NoticeBook } from "./notice-book";
import type { XmlElement } from "./xml-tree";

/** XML Schema `ID` (an NCName), of a length that a link and a selector can carry. */
const validId = /^[\p{L}_][\p{L}\p{N}\p{M}._-]{0,127}$/u;

/**
 * Gives every measure and note of a source its stable id: its own where it is a valid and unique XML ID, else one made
 * of its place: `b{bar}` for a measure of the first part, `b{bar}-p{part}` in the others,
 * `n{part}-{bar}-{place among the notes of the measure}`; all counted from 0. Measures are handed over in document order.
 */
export class IdBook {
  private readonly taken = new Set<string>();

  constructor(private readonly notices: NoticeBook) {}

  /** Ids that the head of the score uses (parts, instruments). */
  reserve(head: readonly XmlElement[]): void {
    for (const element of head) {
      const { id } = element.attributes;
      if (id !== undefined && element.name !== "part") this.taken.add(id);
      this.reserve(element.children.filter((node): node is XmlElement => node.kind === "element"));
    }
  }

  /** Writes the ids into the measure and its notes. */
  assign(measure: XmlElement, partIndex: number, barIndex: number): void {
    this.give(measure, partIndex === 0 ? `b${barIndex}` : `b${barIndex}-p${partIndex}`, measure);
    let place = 0;
    for (const node of measure.children) {
      if (node.kind !== "element" || node.name !== "note") continue;
      this.give(node, `n${partIndex}-${barIndex}-${place}`, measure);
      place += 1;
    }
  }

  /** A free id that starts with `wanted`, now taken. */
  claim(wanted: string): string {
    let id = wanted;
    for (let copy = 2; this.taken.has(id); copy += 1) id = `${wanted}_${copy}`;
    this.taken.add(id);
    return id;
  }

  private give(element: XmlElement, wanted: string, measure: XmlElement): void {
    const own = element.attributes.id;
    if (own !== undefined && validId.test(own) && !this.taken.has(own)) {
      this.taken.add(own);
      return;
    }
    if (own !== undefined) this.tellReplaced(own, measure);
    element.attributes.id = this.claim(wanted);
  }

  private tellReplaced(own: string, measure: XmlElement): void {
    const sentence = validId.test(own)
      ? "Several elements carried the same id; all but the first got a new one."
      : "An element carried an id that XML does not allow; it got a new one.";
    this.notices.add("id-replaced", sentence, null, measure.attributes.number ?? null);
  }
}
