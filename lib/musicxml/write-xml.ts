import type { XmlDoctype, XmlDocument, XmlElement, XmlNode } from "./xml-tree";

/**
 * The document as text, to be stored as UTF-8.
 *
 * After the XML declaration a parsed document comes back character for character, except that attribute values stand
 * in double quotes, one space separates attributes and none stands before `/>` or `>`, and characters that were written
 * as references come back as themselves (`&quot;` in text as `"`, `&#233;` as `é`). `&`, `<` and `>` in text,
 * `&`, `<`, `>` and `"` in attributes are always escaped. Characters that XML 1.0 cannot hold become U+FFFD.
 */
export function writeXml(document: XmlDocument): string {
  const out: string[] = [];
  const { declaration } = document;
  if (declaration) {
    const standalone = declaration.standalone === null ? "" : ` standalone="${declaration.standalone}"`;
    out.push(`<?xml version="${declaration.version}" encoding="UTF-8"${standalone}?>`);
  }
  for (const node of document.prolog) writeNode(node, out);
  writeNode(document.root, out);
  for (const node of document.epilog) writeNode(node, out);
  const text = out.join("");
  return document.lineEnd === "\r\n" ? text.replaceAll("\n", "\r\n") : text;
}

/** One element and all below it. */
export function writeXmlElement(element: XmlElement): string {
  const out: string[] = [];
  writeNode(element, out);
  return out.join("");
}

function writeNode(node: XmlNode | XmlDoctype, out: string[]): void {
  switch (node.kind) {
    case "element":
      writeElement(node, out);
      break;
    case "text":
      out.push(escapeText(node.text));
      break;
    case "cdata":
      out.push("<![CDATA[", legal(node.text).replaceAll("]]>", "]]]]><![CDATA[>"), "]]>");
      break;
    case "comment":
      out.push("<!--", legal(node.text), "-->");
      break;
    case "instruction":
      out.push("<?", node.target, node.text === "" ? "" : " ", legal(node.text), "?>");
      break;
    case "doctype":
      out.push("<!DOCTYPE", node.text, ">");
  }
}

function writeElement(element: XmlElement, out: string[]): void {
  out.push("<", element.name);
  for (const name of Object.keys(element.attributes)) {
    out.push(" ", name, '="', escapeAttribute(element.attributes[name] ?? ""), '"');
  }
  if (element.children.length === 0) {
    out.push(element.isTagPair ? `></${element.name}>` : "/>");
    return;
  }
  out.push(">");
  for (const node of element.children) writeNode(node, out);
  out.push("</", element.name, ">");
}

const textEscapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  "\r": "&#13;",
};
const attributeEscapes: Readonly<Record<string, string>> = {
  ...textEscapes,
  '"': "&quot;",
  "\n": "&#10;",
  "\t": "&#9;",
};

function escapeText(text: string): string {
  return legal(text).replace(/[&<>\r]/g, (found) => textEscapes[found] ?? found);
}

function escapeAttribute(text: string): string {
  return legal(text).replace(/[&<>"\r\n\t]/g, (found) => attributeEscapes[found] ?? found);
}

/** XML 1.0 (fifth edition), production 2 `Char`: everything else, lone surrogates included, cannot be written. */
function legal(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to replace
  return text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, "\ufffd");
}
