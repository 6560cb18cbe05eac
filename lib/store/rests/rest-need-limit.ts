import { failure } from "@/lib/score/result";
import type { StoreProblem } from "../store-problem";

/** More than any piece has rests; each check of a cut measures every need. */
export const mostNeeds = 300;

export const refuseMore = failure<StoreProblem>({
  kind: "conflict",
  sentence: `A piece has at most ${mostNeeds} noted rests, those taken off included. Change one of them instead.`,
});
