import type { Move, PictureSign } from "../picture/picture-words";
import { coreOf, moved, type WordBox } from "./word-box";

/** Between words, in units of the picture; a space is about as wide. */
export const wordGap = 70;
/** Words may begin so far from their note: two spaces of a staff. */
const farthestAside = 360;
/** And where there is no room at all, so far rather than on each other: four spaces. */
const farthestAtLast = 720;
/** "Vi–" ends before the bar line anyway, and before a number and a letter that stand there. */
const farthestBefore = 640;
/** More lines of words than this stand nowhere over each other. */
const mostLines = 8;
/** Words rise by this share of a line at a time. */
const step = 0.25;
/** So little, in lines, rather than aside. */
const littleRise = 0.5;

/** Words between two staves go up or down by so many lines. */
const mostInside = 3;

/** What stands in the way of words. */
export interface Taken {
  /** Other words, and signs. */
  readonly words: readonly PictureSign[];
  /** Words that are placed later: between two staves, where they cannot go far, nothing is moved on to them. */
  readonly waiting: readonly PictureSign[];
  /** Slurs, ties and lines: words move away from the music for them, but never aside. */
  readonly lines: readonly PictureSign[];
  /**
   * Notes, staves and sung words. The engraver keeps words off them as wide as it takes them to be; what is moved aside must not
   * come upon them, and the letters themselves never.
   */
  readonly notes: readonly PictureSign[];
  /** Whether the words are larger than the engraver took them to be, and may cover notes where they are. */
  readonly keepsOffNotes: boolean;
  /** Whether the words belong to the end of a bar, and are still understood some way before it. */
  readonly endsBar: boolean;
}

/**
 * The nearest place that is free; where there is none, the words stay.
 *
 * @param away up or down from the music; nowhere (0) between two staves.
 */
export function findPlace(box: WordBox, taken: Taken, away: -1 | 0 | 1, width: number): Move {
  const isNear = ({ left, right }: PictureSign) =>
    left < box.right + farthestAtLast + wordGap && right > box.left - farthestAtLast - wordGap;
  const [words, lines, notes] = [taken.words, taken.lines, taken.notes].map((each) => each.filter(isNear));
  if (!words || !lines || !notes) return stays;
  const isOff = (others: readonly PictureSign[], move: Move) =>
    !others.some((other) => isOver(moved(box, move), other));
  const isOffNotes = (move: Move) =>
    taken.keepsOffNotes
      ? isOff(notes, move)
      : away === 0 || !notes.some((other) => isOverCore(moved(box, move), other));
  const waiting = away === 0 ? taken.waiting.filter(isNear) : [];
  const isFree = (move: Move) => isOff(words, move) && (away === 0 || isOff(lines, move)) && isOffNotes(move);
  if (isFree(stays)) return stays;
  const [least, most] = taken.endsBar ? [-farthestBefore, 0] : [-farthestAside, farthestAside];
  const shiftsWithin = (from: number, to: number) =>
    asides(box, words).filter((x) => x >= from && x <= to && box.left + x >= 0 && box.right + x <= width);
  const shifts = shiftsWithin(least, most);
  for (const risen of away === 0 ? [0] : risings) {
    const y = away * risen * box.line;
    if (risen > 0 && isFree({ x: 0, y })) return { x: 0, y };
    // Aside only line by line: a word between two lines of others would belong to neither.
    if (!Number.isInteger(risen)) continue;
    const aside = shifts.find((x) => isFree({ x, y }) && isOff([...notes, ...waiting], { x, y }));
    if (aside !== undefined) return { x: aside, y };
  }
  const everything = [...words, ...waiting, ...lines, ...notes];
  const inside = away === 0 ? insides(box).find((move) => isOff(everything, move)) : undefined;
  const farShifts = taken.endsBar ? shifts : shiftsWithin(-farthestAtLast, farthestAtLast);
  const far = farShifts.map((x) => ({ x, y: 0 })).find((move) => isFree(move) && isOff(waiting, move));
  return inside ?? far ?? stays;
}

const stays: Move = { x: 0, y: 0 };

/** Places over and under words between two staves, the nearest first. */
const insides = ({ line }: WordBox): Move[] =>
  stepsTo(mostInside).flatMap((lines) => [
    { x: 0, y: -lines * line },
    { x: 0, y: lines * line },
  ]);

/** How far a word has to rise to be clear of what stands in its way; 0 when it would have to go too far. */
export function riseOver(box: WordBox, others: readonly PictureSign[]): number {
  const rises = [0, ...stepsTo(mostLines)].map((lines) => lines * box.line);
  return rises.find((rise) => !others.some((other) => isOver(moved(box, { x: 0, y: -rise }), other))) ?? 0;
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
    .sort((a, b) => Math.abs(a) - Math.abs(b));
}

/** A hair's breadth does not count: letters seldom reach their line's very edges. */
const hair = 12;

/** Whether letters stand on something: without what few of them rise and fall, and without room beside them. */
function isOverCore(box: WordBox, { left, right, top, bottom }: PictureSign): boolean {
  const core = coreOf(box);
  return core.left < right && left < core.right && core.top < bottom - hair && top < core.bottom - hair;
}

export function isOver(a: PictureSign, b: PictureSign): boolean {
  return (
    a.left < b.right + wordGap / 2 &&
    b.left < a.right + wordGap / 2 &&
    a.top < b.bottom - hair &&
    b.top < a.bottom - hair
  );
}
