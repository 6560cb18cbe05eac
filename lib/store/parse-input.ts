import type { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "./store-problem";

/** What a client sent, checked; the first complaint becomes the sentence. */
export function parseInput<T>(schema: z.ZodType<T>, input: unknown): Result<T, StoreProblem> {
  const parsed = schema.safeParse(input);
  if (parsed.success) return success(parsed.data);
  const [issue] = parsed.error.issues;
  return failure({ kind: "invalid-input", sentence: issue ? sayIssue(issue) : "Something is missing." });
}

function sayIssue(issue: z.core.$ZodIssue): string {
  // Our own sentences end with a full stop; zod's do not, and speak of types rather than of music.
  if (issue.message.endsWith(".")) return issue.message;
  const field = issue.path.map(String).join(" › ");
  return field === "" ? `Not understood: ${issue.message}.` : `Not understood: ${field} (${issue.message}).`;
}
