import { type Finger, type PairSpan, pairSpan } from "./pair-spans";

/** A key with the finger on it. For the left hand the keys are mirrored: `midi` is negated, `isBlack` is not. */
export interface FingeredKey {
  readonly midi: number;
  readonly isBlack: boolean;
  readonly finger: Finger;
}

const black = new Set([1, 3, 6, 8, 10]);

export const isBlackKey = (midi: number): boolean => black.has(((midi % 12) + 12) % 12);

/** One finger on two keys in turn has no row in the model; it must never be cheaper than a change of finger. Ours. */
const sameFinger = 12;

const over = ({ minComfortable, maxComfortable }: PairSpan, semitones: number): number =>
  Math.max(0, semitones - maxComfortable, minComfortable - semitones);

/**
 * What two notes that follow one another cost: stretch, small and large span, three-to-four, four-on-black, thumb-passing.
 * Source: Parncutt et al. 1997, rules 1 to 3, 8, 9 and 12; the weights are from memory of the paper.
 */
export function pairCost(a: FingeredKey, b: FingeredKey): number {
  const semitones = b.midi - a.midi;
  if (a.finger === b.finger) return semitones === 0 ? 0 : sameFinger + Math.abs(semitones);
  const span = pairSpan(a.finger, b.finger) as PairSpan;
  const hasThumb = a.finger === 1 || b.finger === 1;
  const outOfRelaxed = Math.max(0, span.minRelaxed - semitones, semitones - span.maxRelaxed);
  return (
    2 * over(span, semitones) +
    (hasThumb ? 1 : 2) * outOfRelaxed +
    (a.finger === 3 && b.finger === 4 ? 1 : 0) +
    (isThreeFour(a, b) ? 1 : 0) +
    thumbPassing(a, b)
  );
}

/** Three on a white and four on a black key, in either order. */
function isThreeFour(a: FingeredKey, b: FingeredKey): boolean {
  const [three, four] = a.finger === 3 ? [a, b] : [b, a];
  return three.finger === 3 && four.finger === 4 && !three.isBlack && four.isBlack;
}

/** 1 on one level; 3 with the lower note white under a finger and the upper black under the thumb. */
function thumbPassing(a: FingeredKey, b: FingeredKey): number {
  const [lower, upper] = a.midi < b.midi ? [a, b] : [b, a];
  if (lower.midi === upper.midi || upper.finger !== 1 || lower.finger === 1) return 0;
  if (lower.isBlack === upper.isBlack) return 1;
  return upper.isBlack ? 3 : 0;
}

/**
 * What the middle of three notes adds: change of position (count and size), three-four-five, thumb and fifth finger on
 * black. At an end the missing neighbour is null.
 * Source: Parncutt et al. 1997, rules 4, 5, 7, 10 and 11; the weights are from memory of the paper.
 */
export function middleCost(
  before: FingeredKey | null,
  middle: FingeredKey,
  after: FingeredKey | null,
): number {
  return onBlack(before, middle, after) + (before && after ? changeCost(before, middle, after) : 0);
}

function onBlack(
  before: FingeredKey | null,
  { finger, isBlack }: FingeredKey,
  after: FingeredKey | null,
): number {
  if (!isBlack || (finger !== 1 && finger !== 5)) return 0;
  const whiteNeighbours = [before, after].filter((key) => key !== null && !key.isBlack).length;
  return (finger === 1 ? 1 : 0) + 2 * whiteNeighbours;
}

function changeCost(first: FingeredKey, second: FingeredKey, third: FingeredKey): number {
  const threeFourFive = new Set([first, second, third].map(({ finger }) => finger));
  const isWeakGroup = threeFourFive.size === 3 && !threeFourFive.has(1) && !threeFourFive.has(2);
  return (isWeakGroup ? 1 : 0) + positionChange(first, second, third);
}

function positionChange(first: FingeredKey, second: FingeredKey, third: FingeredKey): number {
  const semitones = third.midi - first.midi;
  const span = pairSpan(first.finger, third.finger);
  if (!span) return semitones === 0 ? 0 : 1 + Math.abs(semitones);
  const size = over(span, semitones);
  if (size === 0) return 0;
  const isBetween = (second.midi - first.midi) * (third.midi - second.midi) > 0;
  const isBeyond = semitones > span.maxPractical || semitones < span.minPractical;
  return (second.finger === 1 && isBetween && isBeyond ? 2 : 1) + size;
}

/** Each use of the fourth or fifth finger. Source: Parncutt et al. 1997, rule 6. */
export const weakFinger = (finger: Finger): number => (finger >= 4 ? 1 : 0);
