import { failure, type Result } from "@/lib/score/result";

/** Why something cannot be done to a rewrite; `sentence` is for the pianist. */
export interface EditProblem {
  readonly kind: "cannot-be-done";
  readonly sentence: string;
}

/** What an editing step gives: the changed rewrite, or why there is none. */
export type Edited<T> = Result<T, EditProblem>;

export const cannot = (sentence: string): Edited<never> => failure({ kind: "cannot-be-done", sentence });
