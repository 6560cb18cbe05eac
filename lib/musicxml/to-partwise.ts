import { failure, type Result, success } from "@/lib/score/result";
import { readLimits } from "./limits";
import type { ReadProblem } from "./read-problem";
import { child, childrenNamed, element, type XmlDocument, type XmlElement } from "./xml-tree";

/** True for a document whose measures hold the parts (MusicXML 4.0, `score-timewise`). */
export function isTimewise(root: XmlElement): boolean {
  return root.name === "score-timewise";
}

/**
 * The same score with parts that hold the measures, as MusicXML's own parttime.xsl turns it round; what the parts hold
 * is moved, not copied. A part that a measure leaves out gets an empty measure there.
 */
export function toPartwise(document: XmlDocument): Result<XmlDocument, ReadProblem> {
  const { root } = document;
  const measures = childrenNamed(root, "measure");
  const cells = measures.map(readCells);
  const ids = partIds(root, cells);
  if (ids.length > readLimits.parts) return failure({ kind: "too-many-parts" });
  if (ids.length * measures.length > readLimits.measures) {
    return failure({ kind: "too-many-bars", partName: ids[0] ?? "" });
  }
  const parts = ids.map((id, index) => turnPart(id, index, measures, cells));
  const turned = element("score-partwise", { ...root.attributes });
  turned.children = root.children.filter((node) => node.kind !== "element" || node.name !== "measure");
  for (const part of parts) turned.children.push(indent(1), part);
  turned.children.push(indent(0));
  return success({ ...document, prolog: turnDoctype(document), root: turned });
}

/** What each part has in one measure. */
type Cells = ReadonlyMap<string, XmlElement>;

function readCells(measure: XmlElement): Cells {
  const cells = new Map<string, XmlElement>();
  for (const part of childrenNamed(measure, "part")) {
    const before = cells.get(idOf(part));
    if (before) before.children.push(...part.children);
    else cells.set(idOf(part), part);
  }
  return cells;
}

const idOf = ({ attributes }: XmlElement): string => attributes.id ?? "";

/** Those of the list first, in its order. */
function partIds(root: XmlElement, cells: readonly Cells[]): string[] {
  const found = new Set(cells.flatMap((cell) => [...cell.keys()]));
  const list = child(root, "part-list");
  const listed = list === null ? [] : childrenNamed(list, "score-part").map(idOf);
  return [...new Set([...listed.filter((id) => found.has(id)), ...found])];
}

/** A timewise measure has one id: it stays with the first part. */
function turnPart(
  id: string,
  index: number,
  measures: readonly XmlElement[],
  cells: readonly Cells[],
): XmlElement {
  const part = element("part", { id });
  measures.forEach((measure, at) => {
    const turned = element("measure", { ...measure.attributes });
    if (index > 0) delete turned.attributes.id;
    turned.children = cells[at]?.get(id)?.children ?? [];
    part.children.push(indent(2), turned);
  });
  part.children.push(indent(1));
  return part;
}

function turnDoctype({ prolog }: XmlDocument): XmlDocument["prolog"] {
  const turn = (text: string) => text.replaceAll("timewise", "partwise").replaceAll("Timewise", "Partwise");
  return prolog.map((node) => (node.kind === "doctype" ? { ...node, text: turn(node.text) } : node));
}

function indent(depth: number) {
  return { kind: "text" as const, text: `\n${"  ".repeat(depth)}` };
}
