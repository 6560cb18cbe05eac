import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions, type Position } from "@/lib/score/position";
import { noQuarters, scaleQuarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import { childElements, element, type XmlElement } from "../xml-tree";
import { type CuttableScore, readCuttable } from "./cuttable-score";
import { insertAt } from "./insert-at";
import { findKeptSpans, type KeptSpan } from "./kept-spans";
import { deWord, viWord, wordsDirection } from "./mark-join";

/**
 * A piece with its cuts shown over the printed bars instead of taken out, for players who keep their old copy: "Vi-"
 * where one leaves, "-de" where one goes on, a dashed line over everything between. No note and no bar changes.
 *
 * @param cuts those that touch or overlap count as one.
 * @throws RangeError if a cut is reversed or outside the piece.
 */
export function showCuts(tree: MusicXmlTree, cuts: readonly CutSpan[]): MusicXmlTree {
  if (cuts.length === 0) return tree;
  const score = readCuttable(
    tree,
    cuts.flatMap((cut) => [cut.from.offset, cut.to.offset]),
  );
  const [top] = score.parts;
  if (!top) return tree;
  const number = freeNumber(top.part);
  for (const gap of findGaps(findKeptSpans(score.lengths, cuts), score)) showGap(score, gap, number);
  return score.tree;
}

/** What lies between the spans that are played. */
function findGaps(spans: readonly KeptSpan[], { lengths }: CuttableScore): KeptSpan[] {
  const gaps: KeptSpan[] = [];
  let from: Position = { barIndex: 0, offset: noQuarters };
  const end = { barIndex: lengths.length, offset: noQuarters };
  for (const span of [...spans, { from: end, to: end }]) {
    if (comparePositions(from, span.from) < 0) gaps.push({ from, to: span.from });
    from = span.to;
  }
  return gaps;
}

/** `insertAt` writes before what stands at a place: of one place, what comes last is written first. */
function showGap(score: CuttableScore, { from, to }: KeptSpan, number: string): void {
  insert(score, from, lineEnd("start", number));
  insert(score, from, wordsDirection(viWord, "left"));
  if (to.barIndex < score.lengths.length) insert(score, to, wordsDirection(deWord, "left"));
  // The line ends at the bar line, not under the first note of the bar that is played again.
  const before = to.barIndex - 1;
  const end =
    to.offset.num > 0 ? to : { barIndex: before, offset: score.parts[0]?.bars[before]?.length ?? noQuarters };
  insert(score, end, lineEnd("stop", number));
}

function insert(score: CuttableScore, { barIndex, offset }: Position, node: XmlElement): void {
  const top = score.parts[0];
  const measure = top?.bars[barIndex]?.measure;
  if (top && measure) insertAt(measure, scaleQuarters(offset, top.divisions).num, node);
}

function lineEnd(type: "start" | "stop", number: string): XmlElement {
  const bracket = element("bracket", { type, number, "line-end": "down", "line-type": "dashed" });
  return element("direction", { placement: "above" }, element("direction-type", {}, bracket));
}

/** MusicXML 4.0, `number-level`: 1 to 16. The highest that no bracket of the part uses. */
function freeNumber(part: XmlElement): string {
  const used = new Set<string>();
  const visit = (node: XmlElement): void => {
    if (node.name === "bracket") used.add(node.attributes.number ?? "1");
    for (const inner of childElements(node)) if (inner.name !== "note") visit(inner);
  };
  visit(part);
  const free = Array.from({ length: 16 }, (_, index) => `${16 - index}`).find((number) => !used.has(number));
  return free ?? "16";
}
