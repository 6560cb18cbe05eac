import { beatOf } from "@/lib/score/beat-of";
import type { Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** A time of one score as a whole number, exact: for comparing very many of them. */
export type Ticks = (time: Quarters) => number;

const greatestCommonDivisor = (a: number, b: number): number => {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
};

function denominatorsOf(score: Score): Set<number> {
  const found = new Set<number>();
  const add = ({ den }: Quarters) => found.add(den);
  for (const bar of score.bars) {
    add(bar.start);
    add(bar.length);
    add(bar.metreLength);
    add(beatOf(bar.metre));
  }
  for (const { notes, directions } of score.parts) {
    for (const { onset, duration } of notes) {
      add(onset);
      add(duration);
    }
    for (const { onset } of directions) add(onset);
  }
  return found;
}

/** Finer grids than any printed music needs; beyond it times are rounded to it, and keep their order. */
const finestGrid = 1_000_000_000;

/** Whole numbers for all times of a score: the smallest grid on which every note, sign and bar line lies. */
export function findTicks(score: Score): Ticks {
  let grid = 1;
  for (const den of denominatorsOf(score)) {
    const next = (grid / greatestCommonDivisor(grid, den)) * den;
    grid = Math.min(finestGrid, next);
  }
  return ({ num, den }) => (grid % den === 0 ? num * (grid / den) : Math.round((num * grid) / den));
}
