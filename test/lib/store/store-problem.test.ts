import { describe, expect, test } from "vitest";
import { statusOfProblem } from "@/lib/store/status-of-problem";
import { type StoreProblem, sayStoreProblem } from "@/lib/store/store-problem";

const sentence = "A sentence.";

// Statuses by RFC 9110; 429 by RFC 6585.
const table: readonly [StoreProblem, number, string][] = [
  [{ kind: "not-found" }, 404, "There is nothing here that you belong to."],
  [{ kind: "not-allowed", sentence }, 403, sentence],
  [{ kind: "stale-terms", sentence }, 409, sentence],
  [{ kind: "already-answered", sentence }, 409, sentence],
  [{ kind: "conflict", sentence }, 409, sentence],
  [{ kind: "invalid-input", sentence }, 400, sentence],
  [{ kind: "unreadable-source", sentence }, 422, sentence],
  [{ kind: "not-engraved", sentence }, 503, sentence],
  [
    { kind: "too-large", limitBytes: 64 * 1024 * 1024 },
    413,
    "The file is larger than 64 MB. Export it again without sound or pictures.",
  ],
  [{ kind: "rate-limited", retryAfterSeconds: 41.2 }, 429, "Too many tries. Wait 42 seconds and try again."],
  [{ kind: "rate-limited", retryAfterSeconds: 500 }, 429, "Too many tries. Wait 9 minutes and try again."],
  [{ kind: "sign-in-failed" }, 401, "This e-mail and this password do not belong together."],
];

describe.each(table)("%o", (problem, status, words) => {
  test(`is ${status}: ${words}`, () => {
    expect([statusOfProblem(problem), sayStoreProblem(problem)]).toEqual([status, words]);
  });
});
