declare const quartersBrand: unique symbol;

/**
 * An exact length or point of musical time in quarter notes: a reduced fraction, `den` always positive.
 * A quarter note is `1/1`, an eighth `1/2`, a triplet eighth `1/3`.
 */
export interface Quarters {
  readonly num: number;
  readonly den: number;
  readonly [quartersBrand]: true;
}

const greatestCommonDivisor = (a: number, b: number): number => {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
};

/**
 * The exact fraction `num/den` of a quarter note, reduced.
 *
 * @throws RangeError if either is not a safe integer or `den` is 0: a fraction that no longer fits
 * would silently become an approximation.
 */
export function quarters(num: number, den = 1): Quarters {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den === 0) {
    throw new RangeError(`Not an exact fraction of a quarter note: ${num}/${den}`);
  }
  const divisor = greatestCommonDivisor(num, den) * (den < 0 ? -1 : 1);
  // `+ 0` turns -0 into 0, so that equal fractions are equal to every comparison.
  return { num: num / divisor + 0, den: den / divisor } as Quarters;
}

export const noQuarters: Quarters = quarters(0);

export function addQuarters(a: Quarters, b: Quarters): Quarters {
  if (a.den === b.den) return quarters(a.num + b.num, a.den);
  return quarters(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function subtractQuarters(a: Quarters, b: Quarters): Quarters {
  if (a.den === b.den) return quarters(a.num - b.num, a.den);
  return quarters(a.num * b.den - b.num * a.den, a.den * b.den);
}

/** `length` times the exact fraction `num/den`. */
export function scaleQuarters(length: Quarters, num: number, den = 1): Quarters {
  return quarters(length.num * num, length.den * den);
}

/** Negative, zero or positive, as `a` is before, at or after `b`. */
export function compareQuarters(a: Quarters, b: Quarters): number {
  return a.den === b.den ? a.num - b.num : a.num * b.den - b.num * a.den;
}

export function isEqualQuarters(a: Quarters, b: Quarters): boolean {
  return a.num === b.num && a.den === b.den;
}

export function earlierOf(a: Quarters, b: Quarters): Quarters {
  return compareQuarters(a, b) <= 0 ? a : b;
}

export function laterOf(a: Quarters, b: Quarters): Quarters {
  return compareQuarters(a, b) >= 0 ? a : b;
}

/** A plain number, for seconds and for drawing only: never to compute a musical position with. */
export function quartersAsNumber(value: Quarters): number {
  return value.num / value.den;
}

/** `"7/2"`, or `"3"` for a whole number: the form in which positions are stored and hashed. */
export function writeQuarters(value: Quarters): string {
  return value.den === 1 ? `${value.num}` : `${value.num}/${value.den}`;
}

/** Reads what `writeQuarters` wrote; null for any other text. */
export function readQuarters(text: string): Quarters | null {
  const match = /^(-?\d{1,15})(?:\/(\d{1,15}))?$/.exec(text);
  if (!match) return null;
  const den = match[2] === undefined ? 1 : Number(match[2]);
  return den === 0 ? null : quarters(Number(match[1]), den);
}
