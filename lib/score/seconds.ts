declare const secondsBrand: unique symbol;

/** Clock time in seconds. It comes only from a tempo map or from a clock, never from a bar count. */
export type Seconds = number & { readonly [secondsBrand]: true };

/** @throws RangeError if `value` is not a finite number. */
export function seconds(value: number): Seconds {
  if (!Number.isFinite(value)) throw new RangeError(`Not a time in seconds: ${value}`);
  return value as Seconds;
}
