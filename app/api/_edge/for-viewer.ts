import { readViewer } from "@/app/_data/viewer";
import { problemResponse, signedOutResponse } from "@/app/api/_edge/problem-response";
import type { Result } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

/** Answers a signed-in person with what a use case gives, and everybody else not at all. */
export async function forViewer<T>(
  ask: (viewer: Viewer) => Promise<Result<T, StoreProblem>>,
  answer: (value: T) => Response,
): Promise<Response> {
  const viewer = await readViewer();
  if (!viewer) return signedOutResponse();
  const result = await ask(viewer);
  return result.ok ? answer(result.value) : problemResponse(result.problem);
}
