import { element, type XmlElement } from "../xml-tree";

/** What a measure opens with; our insertions follow it. */
export function isOpening(node: XmlElement): boolean {
  return node.name === "print" || (node.name === "barline" && node.attributes.location === "left");
}

export function isRightBarline(node: XmlElement): boolean {
  return node.name === "barline" && (node.attributes.location ?? "right") === "right";
}

export function moveCursor(name: "backup" | "forward", ticks: number): XmlElement {
  return element(name, {}, element("duration", {}, `${ticks}`));
}
