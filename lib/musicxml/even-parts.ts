import type { IdBook } from "./assign-ids";
import type { NoticeBook } from "./notice-book";
import { childrenNamed, element, type XmlElement } from "./xml-tree";

/** Gives every part as many measures as the longest has; the added ones are empty. */
export function evenParts(
  parts: readonly XmlElement[],
  names: readonly string[],
  ids: IdBook,
  notices: NoticeBook,
): void {
  const measures = parts.map((part) => childrenNamed(part, "measure"));
  const longest = measures.reduce((best, own) => (own.length > best.length ? own : best), [] as XmlElement[]);
  parts.forEach((part, partIndex) => {
    const own = measures[partIndex]?.length ?? 0;
    if (own === longest.length) return;
    tellShortPart(notices, names[partIndex] ?? "", own, longest.length);
    for (const [offset, model] of longest.slice(own).entries()) {
      const added = element("measure", { number: model.attributes.number ?? "" });
      ids.assign(added, partIndex, own + offset);
      part.children.push(added);
    }
  });
}

/** The same words for a part that was made longer and for one that is read as it stands. */
export function tellShortPart(notices: NoticeBook, partName: string, own: number, longest: number): void {
  const sentence = `This part has ${own} bars where another has ${longest}; the rest is empty.`;
  notices.add("bars-missing", sentence, partName);
}
