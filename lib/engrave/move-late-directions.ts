import { deWord, viWord } from "@/lib/musicxml/cut/mark-join";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { compareQuarters, isEqualQuarters, noQuarters, type Quarters } from "@/lib/score/quarters";
import { MeasureClock } from "./measure-clock";

/** Words that belong to the end of a bar: where to go on, or that it is the end. */
const closing = /\b(D\.?\s?[CS]\b|da capo|dal segno|fine|coda|attacca|segue|V\.?\s?S\b|volti)/i;

/**
 * Words and signs of loudness that a source has behind the last note of a bar stand at the beginning of the next, which is the
 * same moment: the engraver (verovio 6.3.0) draws them over the bar line, and at the end of a line lets the staff go on
 * behind it. Those that close a bar stay, and everything before a bar line that means something.
 */
export function moveLateDirections(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    const measures = childrenNamed(part, "measure");
    const clock = new MeasureClock();
    for (const [index, measure] of measures.entries()) {
      const late = findLate(measure, clock);
      const next = measures[index + 1];
      if (late.length === 0 || !next || isDivided(measure, next)) continue;
      measure.children = measure.children.filter((node) => node.kind !== "element" || !late.includes(node));
      const place = next.children.findIndex(
        (node) => node.kind === "element" && /^(note|backup|forward|direction|harmony)$/.test(node.name),
      );
      next.children.splice(place === -1 ? next.children.length : place, 0, ...late);
    }
  }
}

/** Directions at the very end of a bar that may as well begin the next. */
function findLate(measure: XmlElement, clock: MeasureClock): XmlElement[] {
  const placed: { readonly node: XmlElement; readonly at: Quarters }[] = [];
  let length = noQuarters;
  clock.beginMeasure();
  for (const node of childElements(measure)) {
    if (node.name === "direction" && isMovable(node)) placed.push({ node, at: clock.at });
    clock.pass(node);
    if (compareQuarters(clock.at, length) > 0) length = clock.at;
  }
  return placed.flatMap(({ node, at }) => (length.num > 0 && isEqualQuarters(at, length) ? [node] : []));
}

function isMovable(direction: XmlElement): boolean {
  if (child(direction, "offset")) return false;
  const signs = childrenNamed(direction, "direction-type").flatMap(childElements);
  const said = signs.map(textOf).join(" ");
  const isCutWord = said.includes(viWord) || said.includes(deWord);
  return signs.every(({ name }) => /^(words|dynamics)$/.test(name)) && !isCutWord && !closing.test(said);
}

const isDivided = (measure: XmlElement, next: XmlElement): boolean =>
  childrenNamed(measure, "barline").some(({ attributes }) => attributes.location !== "left") ||
  childrenNamed(next, "barline").some(({ attributes }) => attributes.location === "left");
