import type { StoreProblem, StoreProblemKind } from "./store-problem";

const statuses: Readonly<Record<StoreProblemKind, number>> = {
  "not-found": 404,
  "not-allowed": 403,
  "stale-terms": 409,
  "already-answered": 409,
  "invalid-input": 400,
  conflict: 409,
  "too-large": 413,
  "unreadable-source": 422,
  "not-engraved": 503,
  "rate-limited": 429,
  "sign-in-failed": 401,
};

/** HTTP status of a problem (RFC 9110; 429 from RFC 6585). */
export function statusOfProblem(problem: StoreProblem): number {
  return statuses[problem.kind];
}
