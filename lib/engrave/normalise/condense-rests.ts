import {
  child,
  childElements,
  childrenNamed,
  element,
  textOf,
  type XmlElement,
} from "@/lib/musicxml/xml-tree";

/**
 * Draws two or more bars of rest in a row as one bar with their number over it. For a part that stands alone: beside
 * others the engraver would lose their notes. Signs, words, changes of clef, key or metre and bar lines other than the
 * plain one are kept: they divide a row.
 */
export function condenseRests(part: XmlElement): void {
  const measures = childrenNamed(part, "measure");
  let row: XmlElement[] = [];
  const finish = () => {
    if (row.length > 1) markRow(row);
    row = [];
  };
  for (const measure of measures) {
    if (!isRest(measure)) {
      finish();
      continue;
    }
    if (row.length > 0 && !canFollow(measure)) finish();
    row.push(measure);
    if (!canContinue(measure)) finish();
  }
  finish();
}

const isSounding = (node: XmlElement): boolean =>
  node.name === "note" && (child(node, "rest") === null || child(node, "cue") !== null || hasFermata(node));

const hasFermata = (note: XmlElement): boolean =>
  childrenNamed(note, "notations").some((notations) => child(notations, "fermata") !== null);

/** Nothing but rests, with at most signs at its very start. A bar that is no whole one, such as a pickup, is not counted. */
function isRest(measure: XmlElement): boolean {
  if (measure.attributes.implicit === "yes") return false;
  const nodes = childElements(measure);
  const firstRest = nodes.findIndex(({ name }) => name === "note");
  if (firstRest === -1 || nodes.some(isSounding)) return false;
  return nodes.slice(firstRest).every(({ name }) => /^(note|backup|forward|barline)$/.test(name));
}

/** Whether a bar shows nothing that would be lost inside a row of rests. */
function canFollow(measure: XmlElement): boolean {
  return childElements(measure).every((node) => {
    if (node.name === "attributes") return childElements(node).length === 0;
    if (node.name === "barline") return node.attributes.location !== "left";
    return /^(note|backup|forward|sound)$/.test(node.name);
  });
}

/** Whether a row may go on after a bar: not past a bar line that means something. */
function canContinue(measure: XmlElement): boolean {
  return childrenNamed(measure, "barline").every((barline) => {
    if (barline.attributes.location === "left") return true;
    const style = textOf(child(barline, "bar-style")).trim();
    return childElements(barline).length <= (style === "" ? 0 : 1) && /^(|regular)$/.test(style);
  });
}

function markRow(row: readonly XmlElement[]): void {
  const [first] = row;
  if (!first) return;
  const style = element("measure-style", {}, element("multiple-rest", {}, `${row.length}`));
  const before = first.children.findIndex((node) => node.kind === "element" && node.name === "note");
  first.children.splice(Math.max(0, before), 0, element("attributes", {}, style));
}
