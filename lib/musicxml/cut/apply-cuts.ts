import type { CutSpan } from "@/lib/score/cut-span";
import type { Notice } from "@/lib/score/notice";
import type { Quarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import { childrenNamed, type XmlElement } from "../xml-tree";
import { type CuttableScore, readCuttable } from "./cuttable-score";
import { keepSpans } from "./keep-spans";
import { findKeptSpans, type KeptSpan } from "./kept-spans";
import { deWord, hasStartBarline, middleBarline, setEndBarline, viWord, wordsDirection } from "./mark-join";
import { isRightBarline } from "./measure-parts";
import type { Mending } from "./mending";
import type { PlannedBar } from "./planned-bars";

/** Where two parts of the piece meet that a cut brought together. */
export interface Join {
  /** The last bar of the source that sounds before the join; null when the piece begins after a cut. */
  readonly beforeBarIndex: number | null;
  /** The first bar of the source that sounds after it; null when the piece ends with a cut. */
  readonly afterBarIndex: number | null;
  /** The bar of the cut piece that begins at the join or holds it. */
  readonly cutBarIndex: number;
  /** For "Vi- end of 84, -de 97": printed numbers, and offsets where the join is not at the edge of a bar. */
  readonly sentenceParts: {
    readonly beforeLabel: string | null;
    readonly beforeOffset: Quarters | null;
    readonly afterLabel: string | null;
    readonly afterOffset: Quarters | null;
    /** Both halves stand in one bar, which has the number of the first. */
    readonly isOneBar: boolean;
  };
}

export interface CutPiece {
  readonly tree: MusicXmlTree;
  readonly joins: readonly Join[];
  readonly notices: readonly Notice[];
}

/**
 * A piece without what the cuts leave out, as a new tree. Bar numbers and ids stay those of the source.
 *
 * At each join: ties to notes that are gone are dropped and the accidental they carried is written; slurs, hairpins,
 * octave lines, pedals, tuplets, beams, dashes and brackets end before it and begin again after it, or go; clef, key,
 * metre, transposition, staff lines, tempo and loudness are written again when they differ; a double bar stands.
 * A cut may begin and end inside bars: two parts of a bar that add up to the metre become one bar with the number of
 * the first, otherwise two short bars. A note held across `to` is struck again there, shortened, with a notice.
 *
 * @param options.marks writes "Vi-" and "-de" over the first part.
 * @throws RangeError if a cut is reversed or outside the piece, or if the cuts take everything. Whether a cut parts
 * a repeat from its end is for `checkCut` to tell beforehand.
 */
export function applyCuts(
  tree: MusicXmlTree,
  cuts: readonly CutSpan[],
  options: { marks: boolean },
): CutPiece {
  if (cuts.length === 0) return { tree, joins: [], notices: [] };
  const score = readCuttable(
    tree,
    cuts.flatMap((cut) => [cut.from.offset, cut.to.offset]),
  );
  const spans = findKeptSpans(score.lengths, cuts);
  if (spans.length === 0) throw new RangeError("The cuts leave nothing of the piece");
  const { bars, notices, measures } = keepSpans(score, spans, addMiddleBarlines);
  const joins = findJoins(score, spans, bars);
  for (const own of measures) drawBarlines(own, joins);
  if (options.marks && measures[0]) for (const join of joins) markJoin(measures[0], join);
  return { tree: score.tree, joins, notices };
}

/** A join inside a bar gets its double bar where it is; those between bars are drawn at the end of the bar before. */
function addMiddleBarlines(mending: Mending, bars: readonly PlannedBar[]): void {
  for (const bar of bars) {
    for (const slice of bar.slices.slice(1)) mending.atStart[slice.span]?.push(middleBarline());
  }
}

function findJoins(score: CuttableScore, spans: readonly KeptSpan[], bars: readonly PlannedBar[]): Join[] {
  const joins: Join[] = [];
  for (let index = 0; index <= spans.length; index += 1) {
    const [before, after] = [spans[index - 1], spans[index]];
    const isStart = !before && after && after.from.barIndex === 0 && after.from.offset.num === 0;
    const isEnd = !after && before && before.to.barIndex === score.lengths.length;
    if (!isStart && !isEnd) joins.push(describeJoin(score, bars, index, before, after));
  }
  return joins;
}

function describeJoin(
  score: CuttableScore,
  bars: readonly PlannedBar[],
  index: number,
  before: KeptSpan | undefined,
  after: KeptSpan | undefined,
): Join {
  const isInside = before !== undefined && before.to.offset.num > 0;
  const beforeBarIndex = before ? before.to.barIndex - (isInside ? 0 : 1) : null;
  const afterBarIndex = after?.from.barIndex ?? null;
  const found = bars.findIndex(({ slices }) => slices.some((slice) => slice.span === index));
  const cutBarIndex = found === -1 ? bars.length : found;
  const label = (bar: number | null) => (bar === null ? null : labelOf(score, bar));
  return {
    beforeBarIndex,
    afterBarIndex,
    cutBarIndex,
    sentenceParts: {
      beforeLabel: label(beforeBarIndex),
      beforeOffset: before && isInside ? before.to.offset : null,
      afterLabel: label(afterBarIndex),
      afterOffset: after && after.from.offset.num > 0 ? after.from.offset : null,
      isOneBar: bars[cutBarIndex]?.slices.some((slice) => slice.span === index - 1) ?? false,
    },
  };
}

function labelOf(score: CuttableScore, barIndex: number): string | null {
  return score.parts[0]?.bars[barIndex]?.measure.attributes.number ?? null;
}

function drawBarlines(measures: readonly XmlElement[], joins: readonly Join[]): void {
  for (const { cutBarIndex, afterBarIndex, sentenceParts } of joins) {
    const before = measures[cutBarIndex - 1];
    const after = measures[cutBarIndex];
    if (!before || sentenceParts.isOneBar || (after && hasStartBarline(after))) continue;
    setEndBarline(before, afterBarIndex === null ? "light-heavy" : "light-light");
  }
}

function markJoin(measures: readonly XmlElement[], { cutBarIndex, sentenceParts }: Join): void {
  const before = measures[cutBarIndex - 1];
  const after = measures[cutBarIndex];
  if (sentenceParts.isOneBar) {
    if (after)
      insertAtMiddle(after, `${viWord.slice(0, -1)}${deWord} ${sentenceParts.afterLabel ?? ""}`.trim());
    return;
  }
  if (before) insertAtEnd(before, wordsDirection(viWord, "right"));
  if (after) insertBeforeFirstNote(after, wordsDirection(deWord, "left"));
}

/** Behind the music of the first voice: the words end at the bar line. */
function insertAtEnd(measure: XmlElement, direction: XmlElement): void {
  const end = measure.children.findIndex(
    (node) => node.kind === "element" && (node.name === "backup" || isRightBarline(node)),
  );
  measure.children.splice(end === -1 ? measure.children.length : end, 0, direction);
}

function insertAtMiddle(measure: XmlElement, text: string): void {
  const middle = childrenNamed(measure, "barline").find(({ attributes }) => attributes.location === "middle");
  const place = middle ? measure.children.indexOf(middle) : 0;
  measure.children.splice(place + 1, 0, wordsDirection(text, "left"));
}

function insertBeforeFirstNote(measure: XmlElement, direction: XmlElement): void {
  const place = measure.children.findIndex(
    (node) => node.kind === "element" && /^(note|forward|backup|direction)$/.test(node.name),
  );
  measure.children.splice(place === -1 ? measure.children.length : place, 0, direction);
}
