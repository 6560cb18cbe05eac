import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { readViewer } from "@/app/_data/viewer";
import type { Result } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

/** What every action that is not about one piece does: who asks comes from the session, and the use case decides the rest. */
export async function asViewer<T>(
  input: unknown,
  decide: (viewer: Viewer, input: unknown) => Promise<Result<T, StoreProblem>>,
): Promise<ActionResult<T>> {
  const viewer = await readViewer();
  return viewer ? toActionResult(await decide(viewer, input)) : signedOut;
}
