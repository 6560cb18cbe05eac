import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";
import { readUpTo } from "./read-form";

/** A rewrite of the longest passage has some hundred kilobytes. */
const largestJsonBytes = 2 * 1024 * 1024;

const notJson: StoreProblem = {
  kind: "invalid-input",
  sentence: "This did not arrive whole. Nothing was changed; send it again.",
};

/** The JSON of a request, not yet checked, read up to 2 MB and not a byte further, whatever length the client claims. */
export async function readJson(request: Request): Promise<Result<unknown, StoreProblem>> {
  const body = await readUpTo(request, largestJsonBytes);
  if (body === null) return failure({ kind: "too-large", limitBytes: largestJsonBytes });
  try {
    return success(JSON.parse(await body.text()));
  } catch (error) {
    if (error instanceof SyntaxError) return failure(notJson);
    throw error;
  }
}
