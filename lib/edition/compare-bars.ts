import { isEqualQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { BarMap } from "./bar-maps";

/** How much of a printed bar an edition plays. */
export type BarShare = "whole" | "part" | "none";

/** Printed bars that stand next to each other and fare alike in two editions. */
export interface BarStretch {
  readonly firstIndex: number;
  readonly lastIndex: number;
  readonly firstLabel: string;
  readonly lastLabel: string;
  readonly inA: BarShare;
  readonly inB: BarShare;
}

/** All printed bars in their order, with what two editions play of each: what was played in May, and what is now. */
export function compareBars(score: Score, a: BarMap, b: BarMap): BarStretch[] {
  const [sharesA, sharesB] = [findShares(score, a), findShares(score, b)];
  const stretches: BarStretch[] = [];
  for (const { index, label } of score.bars) {
    const [inA, inB] = [sharesA[index] ?? "none", sharesB[index] ?? "none"];
    const last = stretches.at(-1);
    if (last && last.inA === inA && last.inB === inB)
      stretches[stretches.length - 1] = { ...last, lastIndex: index, lastLabel: label };
    else
      stretches.push({ firstIndex: index, lastIndex: index, firstLabel: label, lastLabel: label, inA, inB });
  }
  return stretches;
}

/** By bar index. A bar without length is played whole wherever it is played. */
function findShares(score: Score, { order }: BarMap): BarShare[] {
  const shares: BarShare[] = score.bars.map(() => "none");
  for (const { barIndex, from, to } of order.bars) {
    const bar = score.bars[barIndex];
    const isWhole = bar && from.num === 0 && isEqualQuarters(to, bar.length);
    shares[barIndex] = isWhole ? "whole" : "part";
  }
  return shares;
}
