import { rowHeights } from "./rows";
import type { Scale } from "./scale";
import type { StripAir, StripAirStretch, StripWish } from "./strip-piece";

/** What is free above the highest stretch, for its figure. */
const headPixels = 12;
/** A figure beside a long stretch takes this much. */
const figurePixels = 34;

/** A stretch as a wedge: from nothing after the breath to its height before the next. */
export interface AirWedge {
  readonly x: number;
  readonly end: number;
  /** Above the foot of the row. */
  readonly height: number;
  readonly isLong: boolean;
  /** "14 s" beside a long one; null elsewhere, and where the one before has taken the room. */
  readonly figure: string | null;
}

export interface AirRow {
  readonly wedges: readonly AirWedge[];
  /** How high above the foot the line of what is comfortable lies; null without one. */
  readonly lineHeight: number | null;
}

/** The row of air, to scale with the longest stretch or with what is comfortable, whichever is longer. */
export function placeAir({ stretches, comfortableSeconds }: StripAir, scale: Scale): AirRow {
  const most = Math.max(comfortableSeconds ?? 0, ...stretches.map(({ seconds }) => seconds), 1);
  const height = (seconds: number) => ((rowHeights.air - headPixels) * seconds) / most;
  let taken = Number.NEGATIVE_INFINITY;
  const wedges = stretches.map((stretch): AirWedge => {
    const [x, end] = [scale.x(stretch.from), scale.x(stretch.to)];
    const hasRoom = stretch.isLong && end >= taken;
    if (hasRoom) taken = end + figurePixels;
    return {
      ...{ x, end, height: height(stretch.seconds), isLong: stretch.isLong },
      figure: hasRoom ? sayFigure(stretch) : null,
    };
  });
  return { wedges, lineHeight: comfortableSeconds === null ? null : height(comfortableSeconds) };
}

function sayFigure({ seconds }: StripAirStretch): string {
  return `${Math.round(seconds)} s`;
}

/** A wished rest as a bracket that ends at the entry. */
export interface PlacedWish {
  readonly x: number;
  readonly end: number;
  /** Null where another bracket has taken the room for its words. */
  readonly text: string | null;
  readonly wish: StripWish;
}

/** What a letter of a wish takes, and the room between two wishes, in pixels. */
const [letterPixels, wishGap] = [6, 6];

/** Wishes that still hold come first to the room for words, then the longest. */
export function placeWishes(wishes: readonly StripWish[], scale: Scale): PlacedWish[] {
  const taken: { from: number; to: number }[] = [];
  return [...wishes]
    .sort((a, b) => Number(a.isReleased) - Number(b.isReleased) || b.seconds - a.seconds)
    .map((wish) => {
      const [start, end] = [scale.x(Math.max(0, wish.at - wish.seconds)), scale.x(wish.at)];
      const x = Math.min(start, end - 6);
      const half = (wish.text.length * letterPixels + wishGap) / 2;
      const words = { from: (x + end) / 2 - half, to: (x + end) / 2 + half };
      const hasRoom = !taken.some(({ from, to }) => words.from < to && from < words.to);
      if (hasRoom) taken.push(words);
      return { x, end, text: hasRoom ? wish.text : null, wish };
    });
}
