import { element, type XmlElement } from "@/lib/musicxml/xml-tree";
import { scanMarkup } from "./scan-markup";

/**
 * One of our own inert pictures (`EngravedSystem.svg`) as a tree.
 *
 * @throws Error if it is none.
 */
export function readPicture(svg: string): XmlElement {
  const root = readMarkup(svg);
  if (root.name !== "svg") throw new Error("Not one of our pictures");
  return root;
}

/**
 * One element of such a picture.
 *
 * @throws Error if it is none.
 */
export function readMarkup(markup: string): XmlElement {
  const top = element("top");
  const around: XmlElement[] = [top];
  scanMarkup(markup, {
    open(name, attributes) {
      const node: XmlElement = { kind: "element", name, attributes: { ...attributes }, children: [] };
      around.at(-1)?.children.push(node);
      around.push(node);
    },
    close() {
      around.pop();
    },
    text(text) {
      around.at(-1)?.children.push({ kind: "text", text });
    },
  });
  const [root] = top.children;
  if (root?.kind !== "element" || top.children.length > 1) throw new Error("Not one element");
  return root;
}
