import type { CutSpan } from "@/lib/score/cut-span";
import { findPerformedBar } from "@/lib/score/find-performed-bar";
import { leaveOut } from "@/lib/score/leave-out";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A place of the printed piece, each time that it is played: the music that sounds from there. */
export interface SourcePlace extends Position {
  /** How many times its bar has been played in the piece without cuts, this time included: from 1. */
  readonly pass: number;
  /** The printed number of the bar. */
  readonly label: string;
}

/** A place of an edition: the music that sounds from there. */
export interface EditionPlace {
  /** Performed time from the beginning of the edition, in quarter notes; its end is no place. */
  readonly performed: Quarters;
  /** Which of the bars played it is, from 1; a part of a bar that a cut left counts as one. */
  readonly barNumber: number;
}

/**
 * Between the printed piece and one edition of it. The two maps are inverse to each other: every place of the edition
 * comes from exactly one place of the source, and a place of the source that is cut has none in the edition.
 */
export interface BarMap {
  /** The bars of the edition in the order they sound. */
  readonly order: PerformedOrder;
  /** Where a place of the source went; null when it is cut, or is not played in the first place. */
  readonly toEdition: (place: Omit<SourcePlace, "label">) => EditionPlace | null;
  /** Where performed time of the edition comes from; null before its beginning, at its end and after it. */
  readonly toSource: (performed: Quarters) => SourcePlace | null;
  /** Every time that a written position sounds in the edition, in the order it does. */
  readonly findAll: (position: Position) => EditionPlace[];
}

/**
 * Maps between a piece and its edition with these cuts.
 *
 * @param order of the whole piece: as performed, repeats taken, or `writtenOrder` to map its pages.
 * @throws RangeError if a cut lies outside the piece or ends before it begins; ask `checkCut` first.
 */
export function readBarMap(score: Score, order: PerformedOrder, cuts: readonly CutSpan[]): BarMap {
  const played = leaveOut(score, order, cuts);
  const piecesOfBar = groupPieces(played);
  const findAll = ({ barIndex, offset }: Position) =>
    (piecesOfBar.get(barIndex) ?? []).filter(({ bar }) => isInside(bar, offset));
  return {
    order: played,
    toEdition: (place) => {
      const piece = findAll(place).find(({ bar }) => bar.pass === place.pass);
      return piece ? placeIn(piece, place.offset) : null;
    },
    toSource: (performed) => sourceOf(score, played, performed),
    findAll: (position) => findAll(position).map((piece) => placeIn(piece, position.offset)),
  };
}

/** Where a place of one edition is in another of the same piece; null when it is cut there. */
export function mapPlace(from: BarMap, to: BarMap, performed: Quarters): EditionPlace | null {
  const source = from.toSource(performed);
  return source && to.toEdition(source);
}

/** A bar or a part of one, with its number among those played. */
interface Piece {
  readonly bar: PerformedBar;
  readonly barNumber: number;
}

function groupPieces({ bars }: PerformedOrder): Map<number, Piece[]> {
  const pieces = new Map<number, Piece[]>();
  for (const [index, bar] of bars.entries()) {
    const piece = { bar, barNumber: index + 1 };
    const before = pieces.get(bar.barIndex);
    if (before) before.push(piece);
    else pieces.set(bar.barIndex, [piece]);
  }
  return pieces;
}

function isInside({ from, to }: PerformedBar, offset: Quarters): boolean {
  return compareQuarters(offset, from) >= 0 && compareQuarters(offset, to) < 0;
}

function placeIn({ bar, barNumber }: Piece, offset: Quarters): EditionPlace {
  return { performed: addQuarters(bar.start, subtractQuarters(offset, bar.from)), barNumber };
}

function sourceOf(score: Score, order: PerformedOrder, performed: Quarters): SourcePlace | null {
  if (compareQuarters(performed, noQuarters) < 0 || compareQuarters(performed, order.length) >= 0)
    return null;
  const bar = order.bars[findPerformedBar(order, performed)];
  if (!bar) return null;
  const { barIndex, pass } = bar;
  const offset = addQuarters(bar.from, subtractQuarters(performed, bar.start));
  return { barIndex, offset, pass, label: score.bars[barIndex]?.label ?? "" };
}
