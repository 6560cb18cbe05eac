import { type Quarters, quarters } from "@/lib/score/quarters";
import { timeLimits } from "./limits";

const greatestCommonDivisor = (a: number, b: number): number => {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
};

/** Whether a time is one that is computed with: see `timeLimits`. */
export function isWithinTime(time: Quarters): boolean {
  return time.den <= timeLimits.denominator && Math.abs(time.num) <= timeLimits.quarters * time.den;
}

/** The exact sum; null when it passes `timeLimits`. Both must be within them. */
export function addTime(a: Quarters, b: Quarters): Quarters | null {
  if (a.num === 0) return b;
  if (b.num === 0) return a;
  const common = (a.den / greatestCommonDivisor(a.den, b.den)) * b.den;
  const sum = quarters(a.num * (common / a.den) + b.num * (common / b.den), common);
  return isWithinTime(sum) ? sum : null;
}

/** Characters, white space around them included. */
const longestNumber = 100;

/**
 * A decimal number of the file (XML Schema `decimal`, as `divisions` and `duration` are) as an exact fraction;
 * null for any other text and for more than 15 digits.
 */
export function readDecimal(text: string): { readonly num: number; readonly den: number } | null {
  if (text.length > longestNumber) return null;
  const match = /^\s*([+-]?)0*(\d*)(?:\.(\d*?)0*)?\s*$/.exec(text);
  if (!match || !/\d/.test(text)) return null;
  const [, sign, whole = "", part = ""] = match;
  if (whole.length + part.length > 15) return null;
  const num = Number(`${whole}${part}`) * (sign === "-" ? -1 : 1);
  return { num, den: 10 ** part.length };
}

/** `(a.num / a.den) / (b.num / b.den)` as a time; null when it is not exact or passes `timeLimits`. */
export function divideExactly(
  a: { readonly num: number; readonly den: number },
  b: { readonly num: number; readonly den: number },
): Quarters | null {
  const num = a.num * b.den;
  const den = a.den * b.num;
  if (den === 0 || !Number.isSafeInteger(num) || !Number.isSafeInteger(den)) return null;
  const time = quarters(num, den);
  return isWithinTime(time) ? time : null;
}
