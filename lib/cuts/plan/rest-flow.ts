/** A silence and what is asked of it: milliseconds and parts of a bar. */
export interface Flow {
  readonly lasts: readonly [number, number];
  readonly asked: readonly [number, number];
}

export const isTooShort = ({ lasts, asked }: Flow) => lasts[0] < asked[0] || lasts[1] < asked[1];

export const addFlows = (a: Flow, b: Flow): Flow => ({
  lasts: [a.lasts[0] + b.lasts[0], a.lasts[1] + b.lasts[1]],
  asked: [Math.max(a.asked[0], b.asked[0]), Math.max(a.asked[1], b.asked[1])],
});
