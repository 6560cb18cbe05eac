import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import { onsetOf } from "@/lib/score/onset-of";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { clipOrder } from "./clip-order";
import { isSameBar } from "./is-seam";
import type { ListenRequest } from "./listen-request";
import type { ScheduledSection } from "./schedule";

/** What is played in one go: pieces of bars in the order they sound, performed time counted from 0. */
export interface Take {
  readonly kind: ScheduledSection["kind"];
  readonly order: PerformedOrder;
}

type SpanRequest = Extract<ListenRequest, { kind: "span" }>;
type JoinRequest = Extract<ListenRequest, { kind: "join" }>;
type PieceRequest = Extract<ListenRequest, { kind: "piece" }>;

/**
 * What a request plays.
 *
 * - Of a span that is played more than once, the shortest way from its beginning to its end.
 * - Of a join that sounds more than once, the first time.
 * - A piece from a place on, in the round that was asked for; where a cut takes that place, from the end of the cut.
 *
 * @param full the performed order, nothing cut.
 * @throws RangeError if a place or a cut lies outside the piece, or a span is never played.
 */
export function readTakes(score: Score, full: PerformedOrder, request: ListenRequest): Take[] {
  switch (request.kind) {
    case "span":
      return [{ kind: "as-asked", order: takeSpan(score, full, request) }];
    case "piece":
      return [{ kind: "as-asked", order: takePiece(score, full, request) }];
    case "join":
      return takeJoin(score, full, request);
  }
}

function takeSpan(score: Score, full: PerformedOrder, { from, to, cuts }: SpanRequest): PerformedOrder {
  const [begin, end] = [onsetOf(score, from), onsetOf(score, to)];
  let start: Quarters | null = null;
  let best: { from: Quarters; to: Quarters } | null = null;
  for (const piece of full.bars) {
    const { written, writtenEnd } = writtenSpan(score, piece);
    const at = (onset: Quarters) => addQuarters(piece.start, subtractQuarters(onset, written));
    if (compareQuarters(written, begin) <= 0 && compareQuarters(begin, writtenEnd) < 0) start = at(begin);
    if (start === null || compareQuarters(written, end) >= 0 || compareQuarters(end, writtenEnd) > 0)
      continue;
    const stretch = { from: start, to: at(end) };
    if (compareQuarters(stretch.to, stretch.from) > 0 && (best === null || isShorter(stretch, best)))
      best = stretch;
  }
  if (best === null) throw new RangeError("These bars are never played in this order");
  return leaveOut(score, clipOrder(full, best.from, best.to), cuts);
}

function isShorter(a: { from: Quarters; to: Quarters }, b: { from: Quarters; to: Quarters }): boolean {
  return compareQuarters(subtractQuarters(a.to, a.from), subtractQuarters(b.to, b.from)) < 0;
}

function takePiece(score: Score, full: PerformedOrder, { from, cuts }: PieceRequest): PerformedOrder {
  if (from === null) return leaveOut(score, full, cuts);
  const piece = full.bars.find(
    ({ barIndex, pass, to }) =>
      barIndex === from.barIndex && pass === from.pass && compareQuarters(from.offset, to) < 0,
  );
  if (!piece) throw new RangeError(`Bar index ${from.barIndex} is not played ${from.pass} times`);
  const begin = addQuarters(piece.start, subtractQuarters(laterOf(from.offset, piece.from), piece.from));
  return leaveOut(score, clipOrder(full, begin, full.length), cuts);
}

function takeJoin(score: Score, full: PerformedOrder, request: JoinRequest): Take[] {
  const { cut, cuts, barsBefore, barsAfter, how } = request;
  const cutOrder = leaveOut(score, full, [...cuts, cut]);
  const seam = findJoin(score, full, cutOrder, cut);
  const { bars } = cutOrder;
  const first = countBack(bars, seam, barsBefore, (piece) => isDivided(full, piece));
  const last = countOn(bars, seam, barsAfter, (piece) => isDivided(full, piece));
  const withIt: Take = { kind: "with-the-cut", order: between(cutOrder, first, last) };
  const uncut = leaveOut(score, full, cuts);
  const begin = first < seam ? findPiece(uncut, bars[first] as PerformedBar, "from") : noQuarters;
  const end = last > seam ? findPiece(uncut, bars[last - 1] as PerformedBar, "to") : uncut.length;
  const without: Take = { kind: "without-it", order: clipOrder(uncut, begin, end) };
  if (how === "in-turn") return [withIt, without];
  return [how === "with-the-cut" ? withIt : without];
}

/** Number of the first piece behind the cut, the first time that it takes something away. */
function findJoin(score: Score, full: PerformedOrder, order: PerformedOrder, cut: CutSpan): number {
  const taken = findFirstTaken(score, full, cut);
  const whole = new Map(full.bars.map((bar) => [barKey(bar), bar]));
  const index = order.bars.findIndex((piece) => {
    const bar = whole.get(barKey(piece));
    const start = bar && addQuarters(bar.start, subtractQuarters(piece.from, bar.from));
    return start !== undefined && compareQuarters(start, taken) >= 0;
  });
  return index < 0 ? order.bars.length : index;
}

/** Performed time at which a cut first takes something away. */
function findFirstTaken(score: Score, full: PerformedOrder, cut: CutSpan): Quarters {
  const [from, to] = [onsetOf(score, cut.from), onsetOf(score, cut.to)];
  for (const piece of full.bars) {
    const { written, writtenEnd } = writtenSpan(score, piece);
    const begin = laterOf(written, from);
    if (compareQuarters(begin, writtenEnd) < 0 && compareQuarters(begin, to) < 0)
      return addQuarters(piece.start, subtractQuarters(begin, written));
  }
  throw new RangeError("This cut takes nothing away from what is played");
}

const barKey = ({ barIndex, pass }: PerformedBar) => `${barIndex} ${pass}`;

function isDivided(full: PerformedOrder, piece: PerformedBar): boolean {
  const whole = full.bars.find((bar) => isSameBar(bar, piece));
  return !whole || !isEqualQuarters(whole.from, piece.from) || !isEqualQuarters(whole.to, piece.to);
}

/** Number of the first piece when so many whole bars before `end` are taken; divided ones come on top. */
function countBack(
  bars: readonly PerformedBar[],
  end: number,
  count: number,
  isPiece: (bar: PerformedBar) => boolean,
): number {
  let left = count;
  let first = end;
  for (; first > 0; first -= 1) {
    const bar = bars[first - 1];
    if (bar && !isPiece(bar)) left -= 1;
    if (left < 0) break;
  }
  return first;
}

/** Number behind the last piece when so many whole bars from `start` on are taken. */
function countOn(
  bars: readonly PerformedBar[],
  start: number,
  count: number,
  isPiece: (bar: PerformedBar) => boolean,
): number {
  let left = count;
  let end = start;
  for (; end < bars.length; end += 1) {
    const bar = bars[end];
    if (bar && !isPiece(bar)) left -= 1;
    if (left < 0) break;
  }
  return end;
}

/** Performed time, in another order, at which a piece of a bar begins or ends. */
function findPiece(order: PerformedOrder, piece: PerformedBar, edge: "from" | "to"): Quarters {
  const holder = order.bars.find(
    (bar) =>
      isSameBar(bar, piece) &&
      compareQuarters(bar.from, piece.from) <= 0 &&
      compareQuarters(piece.to, bar.to) <= 0,
  );
  if (!holder) throw new RangeError(`Bar index ${piece.barIndex} is not played in this order`);
  return addQuarters(holder.start, subtractQuarters(piece[edge], holder.from));
}

function between(order: PerformedOrder, first: number, end: number): PerformedOrder {
  const [from, to] = [order.bars[first]?.start ?? noQuarters, order.bars[end]?.start ?? order.length];
  return clipOrder(order, from, laterOf(from, to));
}

function writtenSpan(score: Score, piece: PerformedBar): { written: Quarters; writtenEnd: Quarters } {
  const start = score.bars[piece.barIndex]?.start;
  if (!start) throw new RangeError(`The order names bar index ${piece.barIndex}, which the score lacks`);
  return { written: addQuarters(start, piece.from), writtenEnd: addQuarters(start, piece.to) };
}
