import { rowHeights } from "./rows";
import type { Scale } from "./scale";
import type { StripHands, StripHandsBar, StripTempoMark } from "./strip-piece";

/** Where a bar stops being comfortable, as `lib/hands` counts difficulty. */
export const comfortableDifficulty = 50;

/** Free above the highest bar, for the triangles. */
const headPixels = 11;
/** A triangle takes this much, with the room to the next. */
export const trianglePixels = 11;
/** Narrower than this nothing is told apart: several bars share one column, and the hardest counts. */
const leastPixels = 2.6;
/** Higher than this nothing is drawn: the scale would leave no room for what is played all the time. */
const mostDifficulty = 75;

/** How a bar, or the hardest of a few, lies under the hands. */
export interface HandsColumn {
  readonly x: number;
  readonly width: number;
  /** Above the foot of the row. */
  readonly height: number;
  readonly isAwkward: boolean;
}

/** How high above the foot of the row a difficulty lies, in pixels. */
export function heightOfDifficulty(difficulty: number): number {
  return ((rowHeights.hands - headPixels) * Math.min(difficulty, mostDifficulty)) / mostDifficulty;
}

/** The columns of the row, in time order; rests have none. */
export function placeHandsBars(bars: readonly StripHandsBar[], scale: Scale): HandsColumn[] {
  const columns: { x: number; end: number; difficulty: number }[] = [];
  for (const bar of bars) {
    const [x, end] = [scale.x(bar.from), scale.x(bar.to)];
    if (end <= x) continue;
    const last = columns.at(-1);
    if (last && last.end - last.x < leastPixels && x - last.end < leastPixels) {
      last.end = end;
      last.difficulty = Math.max(last.difficulty, bar.difficulty);
    } else columns.push({ x, end, difficulty: bar.difficulty });
  }
  return columns
    .filter(({ difficulty }) => difficulty > 0)
    .map(({ x, end, difficulty }) => ({
      x,
      width: Math.max(1, end - x - 0.7),
      height: heightOfDifficulty(difficulty),
      isAwkward: difficulty > comfortableDifficulty,
    }));
}

export interface PlacedTriangle {
  readonly x: number;
  readonly isSolved: boolean;
}

/** One triangle a passage over its middle; where two would touch, the open one stays, else the first. */
export function placeTriangles(passages: StripHands["passages"], scale: Scale): PlacedTriangle[] {
  const placed: PlacedTriangle[] = [];
  for (const { from, to, isSolved } of passages) {
    const x = (scale.x(from) + scale.x(to)) / 2;
    const last = placed.at(-1);
    if (last && x - last.x < trianglePixels) {
      if (last.isSolved && !isSolved) placed[placed.length - 1] = { x, isSolved };
    } else placed.push({ x, isSolved });
  }
  return placed;
}

export interface PlacedTempo {
  /** Where the words begin. */
  readonly x: number;
  readonly short: string;
  readonly words: string;
}

/** A figure of the small type is so wide, in pixels. */
const figurePixels = 6.4;

/** What is not yet at tempo, told beside its triangle; where there is no room before the next, nothing is told. */
export function placeTempi(
  marks: readonly StripTempoMark[],
  triangles: readonly PlacedTriangle[],
  scale: Scale,
): PlacedTempo[] {
  const placed: PlacedTempo[] = [];
  let free = 0;
  for (const { from, to, short, words } of marks) {
    const middle = (scale.x(from) + scale.x(to)) / 2;
    const x = middle + trianglePixels / 2 + 2;
    const end = x + figurePixels * short.length;
    const meets = triangles.some((other) => other.x > middle + 1 && other.x - trianglePixels / 2 < end);
    if (x < free || end > scale.width || meets) continue;
    placed.push({ x, short, words });
    free = end;
  }
  return placed;
}
