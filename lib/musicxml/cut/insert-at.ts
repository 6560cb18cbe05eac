import { child, textOf, type XmlElement } from "../xml-tree";
import { moveCursor } from "./measure-parts";

/**
 * Puts an element where the cursor of the measure first stands at `ticks`, or at its end with a move there and back.
 *
 * @param ticks divisions from the start of the measure.
 */
export function insertAt(measure: XmlElement, ticks: number, inserted: XmlElement): void {
  let cursor = 0;
  for (const [index, node] of measure.children.entries()) {
    if (node.kind !== "element") continue;
    const isTimed = /^(note|forward|backup|direction|harmony|figured-bass)$/.test(node.name);
    if (isTimed && cursor === ticks && !child(node, "chord")) {
      measure.children.splice(index, 0, inserted);
      return;
    }
    const length =
      child(node, "grace") || child(node, "chord") ? 0 : Number(textOf(child(node, "duration"))) || 0;
    if (node.name === "note" || node.name === "forward") cursor += length;
    if (node.name === "backup") cursor = Math.max(0, cursor - length);
  }
  const distance = ticks - cursor;
  const move = (by: number) => (by === 0 ? [] : [moveCursor(by > 0 ? "forward" : "backup", Math.abs(by))]);
  const back = distance < 0 ? move(-distance) : [];
  const barline = measure.children.findIndex(
    (node) => node.kind === "element" && node.name === "barline" && node.attributes.location !== "left",
  );
  const place = barline === -1 ? measure.children.length : barline;
  measure.children.splice(place, 0, ...move(distance), inserted, ...back);
}
