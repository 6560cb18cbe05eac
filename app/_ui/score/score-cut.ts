import type { Ink } from "../party";
import type { EngravedSystem } from "./engraving";

/** An end of a cut on the page: a bar by index and how far into it, from 0 at its bar line to 1. */
export interface CutEnd {
  readonly barIndex: number;
  readonly part: number;
}

/** A cut as the score shows it. */
export interface ScoreCut {
  readonly id: string;
  /** Null for one that is only looked at. */
  readonly number: number | null;
  readonly state: "open" | "agreed";
  readonly ink: Ink;
  /** "Tobias proposes"; null once agreed. */
  readonly says: string | null;
  readonly from: CutEnd;
  readonly to: CutEnd;
  readonly firstBar: number;
  readonly lastBar: number;
}

export interface CutBox {
  readonly x: number;
  readonly width: number;
}

/** What a cut covers in one system, in its units, and which of its ends stand there. */
export interface CutOnSystem {
  /** One box for each bar. */
  readonly boxes: readonly CutBox[];
  readonly startX: number | null;
  readonly endX: number | null;
}

/** Where an end stands in a system; at a bar line, on the left edge of the bar that follows. */
function findEnd(system: EngravedSystem, { barIndex, part }: CutEnd): number | null {
  const box = system.bars.find((bar) => bar.barIndex === barIndex);
  return box ? box.x + box.width * part : null;
}

/**
 * A cut on one system; null when it is not on it. The end `–de` of a cut that ends with a system stands at that system's
 * right edge, where the last cut bar ends.
 */
export function cutOnSystem(system: EngravedSystem, cut: ScoreCut): CutOnSystem | null {
  const boxes = system.bars.flatMap(({ barIndex, x, width }) => {
    if (barIndex < cut.firstBar || barIndex > cut.lastBar) return [];
    const from = barIndex === cut.from.barIndex ? cut.from.part : 0;
    const to = barIndex === cut.to.barIndex ? cut.to.part : 1;
    return to > from ? [{ x: x + width * from, width: width * (to - from) }] : [];
  });
  const isHere = (barIndex: number) => system.bars.some((bar) => bar.barIndex === barIndex);
  const last = boxes.at(-1);
  const endX = isHere(cut.lastBar) && last ? last.x + last.width : null;
  if (boxes.length === 0) return null;
  return { boxes, startX: findEnd(system, cut.from), endX };
}

/** Places within a system (from 0) of the bars that a cut takes wholly. */
export function greyPlaces(system: EngravedSystem, cuts: readonly ScoreCut[]): number[] {
  const isWhole = (barIndex: number) =>
    cuts.some((cut) => {
      if (barIndex < cut.firstBar || barIndex > cut.lastBar) return false;
      const startsInside = barIndex === cut.from.barIndex && cut.from.part > 0;
      const endsInside = barIndex === cut.to.barIndex && cut.to.part < 1;
      return !startsInside && !endsInside;
    });
  return system.bars.flatMap(({ barIndex }, place) => (isWhole(barIndex) ? [place] : []));
}
