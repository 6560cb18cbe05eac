/** An exact share: two whole numbers without a common divisor, the second positive. */
export interface Ratio {
  readonly num: number;
  readonly den: number;
}

/** @throws RangeError if either is no safe integer or `den` is not positive. */
export function ratio(num: number, den = 1): Ratio {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den <= 0)
    throw new RangeError(`Not an exact share: ${num}/${den}`);
  let [x, y] = [Math.abs(num), den];
  while (y !== 0) [x, y] = [y, x % y];
  return { num: num / x, den: den / x };
}

export function multiplyRatios(a: Ratio, b: Ratio): Ratio {
  return ratio(a.num * b.num, a.den * b.den);
}

/** Negative, zero or positive, as the first is smaller than, equal to or larger than the second. */
export function compareRatios(a: Ratio, b: Ratio): number {
  return a.num * b.den - b.num * a.den;
}

/** For a screen, never to compute with: two decimals at most. */
export function sayRatio({ num, den }: Ratio): string {
  return `${Math.round((num / den) * 100) / 100}`;
}
