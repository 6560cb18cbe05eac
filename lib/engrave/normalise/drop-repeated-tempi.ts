import { isTempoMark } from "@/lib/musicxml/cut/tempo-at";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { type Quarters, writeQuarters } from "@/lib/score/quarters";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import { MeasureClock } from "./measure-clock";

/**
 * Leaves a tempo that stands several times at one place, over each part or staff, over the highest only: it holds for all. "a
 * tempo" and "rit." stay where they are, since each player follows their own line.
 *
 * @param tree changed in place.
 */
export function dropRepeatedTempi(tree: MusicXmlTree): void {
  const known = new Set<string>();
  for (const part of tree.parts) {
    const clock = new MeasureClock();
    for (const [index, measure] of childrenNamed(part, "measure").entries()) {
      const repeated = findTempi(measure, clock).filter(({ at, says }) => {
        const key = `${index} ${writeQuarters(at)} ${says}`;
        const isKnown = known.has(key);
        known.add(key);
        return isKnown;
      });
      if (repeated.length === 0) continue;
      const gone = new Set<unknown>(repeated.map(({ node }) => node));
      measure.children = measure.children.filter((node) => !gone.has(node));
    }
  }
}

interface PlacedTempo {
  readonly node: XmlElement;
  readonly at: Quarters;
  readonly says: string;
}

/** The tempi of a bar with their places in it. */
function findTempi(measure: XmlElement, clock: MeasureClock): PlacedTempo[] {
  const found: PlacedTempo[] = [];
  clock.beginMeasure();
  for (const node of childElements(measure)) {
    if (setsTempo(node)) found.push({ node, at: clock.at, says: saidBy(node) });
    clock.pass(node);
  }
  // A part may write its staves in any order: the highest staff keeps the sign.
  return found.toSorted((a, b) => staffOf(a.node) - staffOf(b.node));
}

const staffOf = (direction: XmlElement): number => Number(textOf(child(direction, "staff"))) || 1;

/** A metronome mark, or words that name a tempo of their own. */
function setsTempo(node: XmlElement): boolean {
  if (!isTempoMark(node)) return false;
  const words = wordsOf(node);
  return words === "" || readTempoWords(words)?.kind === "absolute";
}

const typesOf = (direction: XmlElement): XmlElement[] => childrenNamed(direction, "direction-type");

function wordsOf(direction: XmlElement): string {
  const words = typesOf(direction).flatMap((type) => childrenNamed(type, "words").map(textOf));
  return words.join(" ").trim();
}

/** What a reader sees of it; notes' values and numbers included. */
function saidBy(direction: XmlElement): string {
  return typesOf(direction).map(allText).join(" ").replace(/\s+/g, " ").trim().toLowerCase();
}

function allText(node: XmlElement): string {
  const inner = childElements(node);
  if (inner.length === 0) return `${textOf(node)} `;
  return inner.map((each) => (/^beat-unit-dot$/.test(each.name) ? ". " : allText(each))).join("");
}
