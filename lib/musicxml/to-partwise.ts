import { child, childElements, childrenNamed, element, type XmlDocument, type XmlElement } from "./xml-tree";

/** True for a document whose measures hold the parts (MusicXML 4.0, `score-timewise`). */
export function isTimewise(root: XmlElement): boolean {
  return root.name === "score-timewise";
}

/**
 * The same score with parts that hold the measures, as MusicXML's own parttime.xsl turns it round; what the parts hold
 * is moved, not copied. A part that a measure leaves out gets an empty measure there.
 */
export function toPartwise(document: XmlDocument): XmlDocument {
  const { root } = document;
  const measures = childrenNamed(root, "measure");
  const parts = partIds(root, measures).map((id) => {
    const inPart = measures.map((measure) => measureOfPart(measure, id));
    const part = element("part", { id });
    for (const measure of inPart) part.children.push(indent(2), measure);
    part.children.push(indent(1));
    return part;
  });
  keepFirstIds(parts);
  const turned = element("score-partwise", { ...root.attributes });
  turned.children = root.children.filter((node) => node.kind !== "element" || node.name !== "measure");
  for (const part of parts) turned.children.push(indent(1), part);
  turned.children.push(indent(0));
  const prolog = document.prolog.map((node) =>
    node.kind === "doctype"
      ? { ...node, text: node.text.replaceAll("timewise", "partwise").replaceAll("Timewise", "Partwise") }
      : node,
  );
  return { ...document, prolog, root: turned };
}

function partIds(root: XmlElement, measures: readonly XmlElement[]): string[] {
  const found = new Set(measures.flatMap((measure) => childrenNamed(measure, "part").map(idOf)));
  const list = child(root, "part-list");
  const listed = list === null ? [] : childrenNamed(list, "score-part").map(idOf);
  return [...new Set([...listed.filter((id) => found.has(id)), ...found])];
}

const idOf = ({ attributes }: XmlElement): string => attributes.id ?? "";

function measureOfPart(measure: XmlElement, id: string): XmlElement {
  const turned = element("measure", { ...measure.attributes });
  for (const part of childElements(measure)) {
    if (part.name === "part" && idOf(part) === id) turned.children.push(...part.children);
  }
  return turned;
}

/** A timewise measure had one id; turned round it stands in every part. */
function keepFirstIds(parts: readonly XmlElement[]): void {
  for (const part of parts.slice(1)) {
    for (const measure of childrenNamed(part, "measure")) delete measure.attributes.id;
  }
}

function indent(depth: number) {
  return { kind: "text" as const, text: `\n${"  ".repeat(depth)}` };
}
