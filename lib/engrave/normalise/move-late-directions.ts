import { deWord, viWord } from "@/lib/musicxml/cut/mark-join";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import {
  child,
  childElements,
  childrenNamed,
  element,
  textOf,
  type XmlElement,
} from "@/lib/musicxml/xml-tree";
import { compareQuarters, isEqualQuarters, noQuarters, type Quarters } from "@/lib/score/quarters";
import { MeasureClock } from "./measure-clock";

/** Words that belong to the end of a bar: where to go on, or that it is the end. */
const closing = /\b(D\.?\s?[CS]\b|da capo|dal segno|fine|coda|attacca|segue|V\.?\s?S\b|volti)/i;

/**
 * Words and signs of loudness that a source has behind the last note of a bar stand at the beginning of the next, which is the
 * same moment: the engraver (verovio 6.3.0) draws them over the bar line, and at the end of a line lets the staff go on
 * behind it. Those that close a bar stay, and everything before a bar line that means something. What is said of grace notes at
 * the end, and a sign of loudness that another at the beginning of the next bar contradicts, stay in the bar and are drawn a
 * little earlier.
 */
export function moveLateDirections(tree: MusicXmlTree): void {
  for (const part of tree.parts) {
    const measures = childrenNamed(part, "measure");
    const clock = new MeasureClock();
    for (const [index, measure] of measures.entries()) {
      const found = findLate(measure, clock);
      const next = measures[index + 1];
      if (found.length === 0 || !next || isDivided(measure, next)) continue;
      const kept = found.filter(({ node, isOfGraces }) => isOfGraces || isContradicted(node, next));
      for (const { node, lastDuration } of kept) drawEarlier(node, lastDuration);
      const late = found.flatMap((each) => (kept.includes(each) ? [] : [each.node]));
      measure.children = measure.children.filter((node) => node.kind !== "element" || !late.includes(node));
      const place = next.children.findIndex(
        (node) => node.kind === "element" && /^(note|backup|forward|direction|harmony)$/.test(node.name),
      );
      next.children.splice(place === -1 ? next.children.length : place, 0, ...late);
    }
  }
}

interface LateDirection {
  readonly node: XmlElement;
  readonly at: Quarters;
  /** Of the note before it, in divisions. */
  readonly lastDuration: number;
  /** Whether grace notes follow at the same moment. */
  isOfGraces: boolean;
}

/** Directions at the very end of a bar that may as well begin the next. */
function findLate(measure: XmlElement, clock: MeasureClock): LateDirection[] {
  const placed: LateDirection[] = [];
  let length = noQuarters;
  let lastDuration = 0;
  clock.beginMeasure();
  for (const node of childElements(measure)) {
    if (node.name === "direction" && isMovable(node))
      placed.push({ node, at: clock.at, lastDuration, isOfGraces: false });
    if (node.name === "note" && child(node, "grace"))
      for (const each of placed) each.isOfGraces ||= isEqualQuarters(each.at, clock.at);
    else if (node.name === "note") lastDuration = Number(textOf(child(node, "duration")));
    clock.pass(node);
    if (compareQuarters(clock.at, length) > 0) length = clock.at;
  }
  return placed.filter(({ at }) => length.num > 0 && isEqualQuarters(at, length));
}

/** Whether a sign of loudness would come upon another one at the beginning of the next bar. */
function isContradicted(direction: XmlElement, next: XmlElement): boolean {
  const loudness = loudnessOf(direction);
  const inside = childElements(next);
  const firstNote = inside.findIndex(({ name }) => name === "note");
  const before = inside.slice(0, firstNote === -1 ? inside.length : firstNote);
  return before
    .filter((node) => node.name === "direction" && staffOf(node) === staffOf(direction))
    .map(loudnessOf)
    .some((other) => loudness !== "" && other !== "" && other !== loudness);
}

/** "p", "sf f"; "" when it says nothing of loudness. */
function loudnessOf(direction: XmlElement): string {
  const types = childrenNamed(direction, "direction-type");
  const signs = types.flatMap((type) => childrenNamed(type, "dynamics")).flatMap(childElements);
  return signs.map((sign) => (sign.name === "other-dynamics" ? textOf(sign) : sign.name)).join(" ");
}

const staffOf = (direction: XmlElement): string => textOf(child(direction, "staff")).trim() || "1";

/** By a quarter of the note before it: the engraver reads whole divisions only. */
function drawEarlier(direction: XmlElement, lastDuration: number): void {
  const place = direction.children.findLastIndex(
    (node) => node.kind === "element" && node.name === "direction-type",
  );
  const offset = element("offset", {}, `${-Math.max(1, Math.floor(lastDuration / 4))}`);
  direction.children.splice(place + 1, 0, offset);
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
