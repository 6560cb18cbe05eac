import type { Notice } from "@/lib/score/notice";
import { failure, type Result, success } from "@/lib/score/result";
import { IdBook } from "./assign-ids";
import { evenParts } from "./even-parts";
import { readLimits } from "./limits";
import { NoticeBook } from "./notice-book";
import { parseXml } from "./parse-xml";
import { PartList } from "./part-list";
import type { ReadProblem } from "./read-problem";
import { readText } from "./read-text";
import { isTimewise, toPartwise } from "./to-partwise";
import { child, childElements, childrenNamed, element, type XmlDocument, type XmlElement } from "./xml-tree";

/**
 * A source as a tree that keeps everything in it. Always partwise; every part has an id of its own, all parts have as
 * many measures, every measure and note has its stable id.
 */
export interface MusicXmlTree {
  readonly document: XmlDocument;
  /** `score-partwise`. */
  readonly root: XmlElement;
  /** In document order. */
  readonly parts: readonly XmlElement[];
  /** What was imperfect in the file around the music; what is imperfect in the music, `scoreFromTree` tells. */
  readonly notices: readonly Notice[];
}

/** Reads a .musicxml, .xml or .mxl file, within `readLimits`, into a tree. */
export function readTree(bytes: Uint8Array): Result<MusicXmlTree, ReadProblem> {
  const source = readText(bytes);
  if (!source.ok) return source;
  const parsed = parseXml(source.value.text);
  if (!parsed.ok) return parsed;
  return treeOf(parsed.value, source.value.notices);
}

/** The tree of a parsed document, which it takes over and completes with ids. */
export function treeOf(parsed: XmlDocument, notices: readonly Notice[]): Result<MusicXmlTree, ReadProblem> {
  const rootName = parsed.root.name;
  if (rootName !== "score-partwise" && rootName !== "score-timewise") {
    return failure({ kind: "wrong-root", rootName });
  }
  const turned = isTimewise(parsed.root) ? toPartwise(parsed) : success(parsed);
  if (!turned.ok) return turned;
  const document = turned.value;
  const { root } = document;
  const book = new NoticeBook();
  book.addAll(notices);
  const parts = childrenNamed(root, "part");
  const outside = outsideLimits(parts);
  if (outside !== null) return failure(outside);
  const names = namePartsApart(root, parts, book);
  const ids = new IdBook(book);
  ids.reserve(headOf(root));
  parts.forEach((part, partIndex) => {
    childrenNamed(part, "measure").forEach((measure, barIndex) => {
      ids.assign(measure, partIndex, barIndex);
    });
  });
  evenParts(parts, names, ids, book);
  return success({ document, root, parts, notices: book.list() });
}

/** The children of the root that are no parts. */
export function headOf(root: XmlElement): XmlElement[] {
  return childElements(root).filter(({ name }) => name !== "part");
}

function outsideLimits(parts: readonly XmlElement[]): ReadProblem | null {
  if (parts.length === 0) return { kind: "no-parts" };
  if (parts.length > readLimits.parts) return { kind: "too-many-parts" };
  const lengths = parts.map((part) => childrenNamed(part, "measure").length);
  if (lengths.every((length) => length === 0)) return { kind: "no-bars" };
  const longest = lengths.reduce((best, length, index) => (length > (lengths[best] ?? 0) ? index : best), 0);
  const barCount = lengths[longest] ?? 0;
  const isWithin = barCount <= readLimits.bars && barCount * parts.length <= readLimits.measures;
  return isWithin ? null : { kind: "too-many-bars", partName: parts[longest]?.attributes.id ?? "" };
}

/** Gives every part an id of its own and a place in the part list; answers with their names. */
function namePartsApart(root: XmlElement, parts: readonly XmlElement[], notices: NoticeBook): string[] {
  const list = new PartList(root, notices);
  const identities = parts.map((part) => list.identify(part));
  let partList = child(root, "part-list");
  if (partList === null) {
    partList = element("part-list");
    root.children.splice(root.children.indexOf(parts[0] as XmlElement), 0, partList); // there is a part
  }
  const listed = new Set(childrenNamed(partList, "score-part").map(({ attributes }) => attributes.id));
  for (const [index, { id, name }] of identities.entries()) {
    const part = parts[index];
    if (part) part.attributes.id = id;
    if (!listed.has(id))
      partList.children.push(element("score-part", { id }, element("part-name", {}, name)));
  }
  return identities.map(({ name }) => name);
}
