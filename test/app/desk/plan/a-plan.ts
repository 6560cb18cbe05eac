import type { PiecePlan, PlannedCandidate } from "@/lib/study/plan-piece";
import { at } from "@/test/builders/build-score";

/** A candidate that takes out so many seconds of a piece in which a bar lasts a second. */
export function candidate(
  first: number,
  last: number,
  grade: PlannedCandidate["grade"] = "clean",
): PlannedCandidate {
  return {
    ...{ from: at(first), to: at(last), cost: 0, reasons: [], grade },
    gaps: [{ from: first, to: last }],
    name: `bars ${first + 1}–${last}`,
  };
}

/** As much of a plan as the screen reads. */
export function planOf(
  candidates: readonly PlannedCandidate[],
  front: readonly (readonly number[])[],
  {
    best = null,
    others = [],
    limit = 100,
  }: {
    best?: readonly number[] | null;
    others?: readonly (readonly number[])[];
    limit?: number | null;
  } = {},
): PiecePlan {
  const set = (cuts: readonly number[]) => ({ cuts: cuts.map((index) => ({ index })) });
  const plan = {
    best: best && set(best),
    runnersUp: others.map(set),
    front: front.map((cuts) => ({ cuts })),
    limitSeconds: limit,
  };
  return { candidates, plan: plan as unknown as PiecePlan["plan"] };
}
