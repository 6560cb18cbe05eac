import type { GroundRest, GroundRun } from "./plan-ground";

/** Rests that have a place in common with `[from, to]`. */
export function restsTouching({ rests }: GroundRun, from: number, to: number): readonly GroundRest[] {
  let [low, high] = [0, rests.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rests[middle]?.to ?? 0) < from) low = middle + 1;
    else high = middle;
  }
  let end = low;
  while (end < rests.length && (rests[end]?.from ?? 0) <= to) end += 1;
  return rests.slice(low, end);
}

/** Where the written silence begins that a place lies in or touches; the place itself while the soloist plays. */
export function silenceStart(run: GroundRun, place: number): number {
  return restsTouching(run, place, place)[0]?.from ?? place;
}
