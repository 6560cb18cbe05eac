/**
 * An XML document kept whole: order, comments, processing instructions, CDATA sections and blank text included.
 * Trees are plain mutable data: operations on a source clone what they change (`cloneElement`).
 */
export interface XmlElement {
  kind: "element";
  name: string;
  /** In document order. Look up fixed names only: a file can name an attribute as it likes. */
  attributes: Record<string, string>;
  children: XmlNode[];
  /** An element without children that was written `<a></a>` and not `<a/>`. */
  isTagPair?: true;
}

export interface XmlText {
  kind: "text";
  text: string;
}

export interface XmlCdata {
  kind: "cdata";
  text: string;
}

export interface XmlComment {
  kind: "comment";
  text: string;
}

/** `<?target text?>`; never acted on. */
export interface XmlInstruction {
  kind: "instruction";
  target: string;
  text: string;
}

/** What stands between `<!DOCTYPE` and `>`. It never has an internal subset: such files are refused. */
export interface XmlDoctype {
  kind: "doctype";
  text: string;
}

export type XmlNode = XmlElement | XmlText | XmlCdata | XmlComment | XmlInstruction;

export interface XmlDocument {
  /** Null when the file has no XML declaration. Its encoding is forgotten: text is written as UTF-8. */
  declaration: { version: string; standalone: string | null } | null;
  /** What stands before the root element. */
  prolog: (XmlNode | XmlDoctype)[];
  root: XmlElement;
  /** What stands after the root element. */
  epilog: XmlNode[];
  /** Line ending of the file; inside the tree it is always `\n`. */
  lineEnd: "\n" | "\r\n";
}

/** The first child element of that name; null when there is none. */
export function child(parent: XmlElement, name: string): XmlElement | null {
  for (const node of parent.children) if (node.kind === "element" && node.name === name) return node;
  return null;
}

/** All child elements of that name, in document order. */
export function childrenNamed(parent: XmlElement, name: string): XmlElement[] {
  return parent.children.filter((node): node is XmlElement => node.kind === "element" && node.name === name);
}

/** All child elements, in document order. */
export function childElements(parent: XmlElement): XmlElement[] {
  return parent.children.filter((node): node is XmlElement => node.kind === "element");
}

/** Character data of the element and all below it, untrimmed; "" for null, so that look-ups can be chained. */
export function textOf(parent: XmlElement | null): string {
  if (parent === null) return "";
  const only = parent.children.length === 1 ? parent.children[0] : undefined;
  if (only?.kind === "text") return only.text;
  let text = "";
  for (const node of parent.children) {
    if (node.kind === "text" || node.kind === "cdata") text += node.text;
    else if (node.kind === "element") text += textOf(node);
  }
  return text;
}

/** A new element; strings among the children become text. */
export function element(
  name: string,
  attributes: Record<string, string> = {},
  ...children: (XmlNode | string)[]
): XmlElement {
  const nodes = children.map((node) =>
    typeof node === "string" ? { kind: "text" as const, text: node } : node,
  );
  return { kind: "element", name, attributes, children: nodes };
}

export function cloneElement(source: XmlElement): XmlElement {
  const copy: XmlElement = {
    kind: "element",
    name: source.name,
    attributes: { ...source.attributes },
    children: source.children.map(cloneNode),
  };
  if (source.isTagPair) copy.isTagPair = true;
  return copy;
}

function cloneNode(node: XmlNode): XmlNode {
  return node.kind === "element" ? cloneElement(node) : { ...node };
}
