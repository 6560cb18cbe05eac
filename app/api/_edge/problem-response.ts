import { statusOfProblem } from "@/lib/store/status-of-problem";
import { type StoreProblem, sayStoreProblem } from "@/lib/store/store-problem";

/** A problem as JSON `{ kind, sentence }` with its HTTP status. */
export function problemResponse(problem: StoreProblem): Response {
  const headers: Record<string, string> = { "cache-control": "no-store" };
  if (problem.kind === "rate-limited") headers["retry-after"] = String(problem.retryAfterSeconds);
  return Response.json(
    { kind: problem.kind, sentence: sayStoreProblem(problem) },
    { status: statusOfProblem(problem), headers },
  );
}

/** The answer to a request without a session, whatever it asks for. */
export function signedOutResponse(): Response {
  return Response.json(
    { kind: "signed-out", sentence: "You are signed out. Sign in, and send it again." },
    { status: 401, headers: { "cache-control": "no-store" } },
  );
}

/** JSON that only this person may keep, and not for long. */
export function privateJson(value: unknown, status = 200): Response {
  return Response.json(value, { status, headers: { "cache-control": "private, no-store" } });
}
