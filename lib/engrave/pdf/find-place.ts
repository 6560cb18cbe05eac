import type { Move, PictureSign } from "../picture-words";
import { moved, type WordBox } from "./word-box";

/** Between words, in units of the picture; a space is about as wide. */
export const wordGap = 70;
/** Words may begin so far from their note: two spaces of a staff. */
const farthestAside = 360;
/** More lines of words than this stand nowhere over each other. */
const mostLines = 8;
/** Words rise by this share of a line at a time. */
const step = 0.25;
/** So little, in lines, rather than aside. */
const littleRise = 0.5;

/** What stands in the way of words. */
export interface Taken {
  /** Other words, and signs. */
  readonly words: readonly PictureSign[];
  /** Slurs, ties and lines: words move away from the music for them, but never aside. */
  readonly lines: readonly PictureSign[];
}

/**
 * The nearest place that is free; where there is none, the words stay.
 *
 * @param away up or down from the music; nowhere (0) between two staves.
 */
export function findPlace(box: WordBox, taken: Taken, away: -1 | 0 | 1, width: number): Move {
  const isNear = ({ left, right }: PictureSign) =>
    left < box.right + farthestAside + wordGap && right > box.left - farthestAside - wordGap;
  const words = taken.words.filter(isNear);
  const inTheWay = away === 0 ? words : [...words, ...taken.lines.filter(isNear)];
  const isFree = (move: Move) => !inTheWay.some((other) => isOver(moved(box, move), other));
  const stays = { x: 0, y: 0 };
  if (isFree(stays)) return stays;
  const shifts = asides(box, words).filter((x) => box.left + x >= 0 && box.right + x <= width);
  for (const lines of away === 0 ? [0] : risings) {
    const y = away * lines * box.line;
    if (lines > 0 && isFree({ x: 0, y })) return { x: 0, y };
    // Aside only line by line: a word between two lines of others would belong to neither.
    const aside = Number.isInteger(lines) ? shifts.find((x) => isFree({ x, y })) : undefined;
    if (aside !== undefined) return { x: aside, y };
  }
  return stays;
}

/** In lines, in the order in which they are tried: a little first, then in place, where words go aside, and on. */
const risings: readonly number[] = [
  ...stepsTo(littleRise),
  0,
  ...stepsTo(mostLines).filter((lines) => lines > littleRise),
];

function stepsTo(most: number): number[] {
  return Array.from({ length: most / step }, (_, index) => (index + 1) * step);
}

/** How far aside the words might go: just behind, or just before, what stands in their way. The nearest first. */
function asides(box: WordBox, taken: readonly PictureSign[]): number[] {
  return taken
    .flatMap(({ left, right }) => [right + wordGap - box.left, left - wordGap - box.right])
    .filter((x) => Math.abs(x) <= farthestAside)
    .sort((a, b) => Math.abs(a) - Math.abs(b));
}

/** A hair's breadth does not count: letters seldom reach their line's very edges. */
const hair = 12;

export function isOver(a: PictureSign, b: PictureSign): boolean {
  return (
    a.left < b.right + wordGap / 2 &&
    b.left < a.right + wordGap / 2 &&
    a.top < b.bottom - hair &&
    b.top < a.bottom - hair
  );
}
