import { compareQuarters, noQuarters, type Quarters, scaleQuarters } from "@/lib/score/quarters";
import { child, childElements, textOf, type XmlElement } from "../xml-tree";
import { isOpening, isRightBarline, moveCursor } from "./measure-parts";
import { MeasureWriter } from "./measure-writer";
import type { Mending } from "./mending";
import type { BarSlice, PlannedBar } from "./planned-bars";

/** One measure of a part in the cut piece, made of the part's own elements; null when the part has no such bar. */
export function buildMeasure(
  mending: Mending,
  bar: PlannedBar,
  lengths: readonly Quarters[],
): XmlElement | null {
  const first = bar.slices[0];
  const source = first && mending.music.bars[first.barIndex]?.measure;
  if (!first || !source) return null;
  if (bar.slices.length === 1 && isWholeBar(first, lengths)) addAtEdges(mending, first, source);
  else {
    source.children = new MeasureWriter(mending, bar).write();
    // The width on paper was that of the whole bar.
    delete source.attributes.width;
  }
  return source;
}

export function isWholeBar(slice: BarSlice, lengths: readonly Quarters[]): boolean {
  const length = lengths[slice.barIndex];
  return slice.from.num === 0 && length !== undefined && compareQuarters(slice.to, length) === 0;
}

function addAtEdges(mending: Mending, slice: BarSlice, measure: XmlElement): void {
  measure.children = measure.children.filter((node) => node.kind !== "element" || !mending.removed.has(node));
  const span = mending.spans[slice.span];
  const atStart = mending.atStart[slice.span] ?? [];
  if (span?.from.barIndex === slice.barIndex && atStart.length > 0) {
    const after = measure.children.findLastIndex((node) => node.kind === "element" && isOpening(node));
    measure.children.splice(after + 1, 0, ...atStart);
  }
  const atEnd = mending.atEnd[slice.span] ?? [];
  const isLast = span?.to.barIndex === slice.barIndex + 1 && span.to.offset.num === 0;
  if (isLast && atEnd.length > 0) addAtEnd(measure, atEnd, ticksOf(mending, slice));
}

const ticksOf = (mending: Mending, slice: BarSlice): number =>
  scaleQuarters(mending.music.bars[slice.barIndex]?.length ?? noQuarters, mending.music.divisions).num;

function addAtEnd(measure: XmlElement, added: readonly XmlElement[], reach: number): void {
  let cursor = 0;
  for (const node of childElements(measure)) {
    if (node.name === "forward" || node.name === "note") cursor += durationOf(node);
    else if (node.name === "backup") cursor = Math.max(0, cursor - durationOf(node));
  }
  const barline = measure.children.findLastIndex((node) => node.kind === "element" && isRightBarline(node));
  const move = cursor < reach ? [moveCursor("forward", reach - cursor)] : [];
  measure.children.splice(barline === -1 ? measure.children.length : barline, 0, ...move, ...added);
}

function durationOf(node: XmlElement): number {
  const isApart = node.name === "note" && (child(node, "chord") || child(node, "grace"));
  return isApart ? 0 : Math.max(0, Number(textOf(child(node, "duration"))) || 0);
}
