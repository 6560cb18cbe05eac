import type { PracticePassage } from "./practice-passage";
import { compareRatios, multiplyRatios, type Ratio, ratio, sayRatio } from "./ratio";

/** How much a passage needs practice: its difficulty times how much the piece depends on it. */
export function needOf({ difficulty, weight }: Pick<PracticePassage, "difficulty" | "weight">): Ratio {
  return multiplyRatios(ratio(Math.round(difficulty)), weight.factor);
}

/** Passages by how much they need practice, the neediest first; those that need the same, in the order of the page. */
export function orderPassages<P extends PracticePassage>(passages: readonly P[]): P[] {
  return passages.toSorted(
    (a, b) => compareRatios(needOf(b), needOf(a)) || a.fromBar - b.fromBar || a.toBar - b.toBar,
  );
}

/** What the place in the order was computed from: "difficulty 61 of 100 × 1.5 (the piano is alone throughout)". */
export function sayNeed({ difficulty, weight }: Pick<PracticePassage, "difficulty" | "weight">): string {
  const reasons = weight.reasons.map(({ factor, words }) => ` × ${sayRatio(factor)} (${words})`);
  return `difficulty ${Math.round(difficulty)} of 100${reasons.join("")}`;
}
