import type { Result } from "@/lib/score/result";
import { type StoreProblem, type StoreProblemKind, sayStoreProblem } from "@/lib/store/store-problem";

/** What a server action answers: it never throws for something foreseeable. */
export type ActionResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly kind: ActionProblemKind; readonly sentence: string };

/** `not-sent` is said by the browser: the action never reached the server. */
export type ActionProblemKind = StoreProblemKind | "signed-out" | "not-sent";

/** A use case's result as an action sends it to the browser. */
export function toActionResult<T>(result: Result<T, StoreProblem>): ActionResult<T> {
  return result.ok ? result : actionProblem(result.problem);
}

export function actionProblem(problem: StoreProblem): ActionResult<never> {
  return { ok: false, kind: problem.kind, sentence: sayStoreProblem(problem) };
}

/** The answer to somebody who is not signed in. */
export const signedOut: ActionResult<never> = {
  ok: false,
  kind: "signed-out",
  sentence: "You are signed out. Sign in, and send it again.",
};
