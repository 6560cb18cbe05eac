import { EngraveFailure } from "../engrave-problem";
import { runEngraveJob } from "../engraver";
import type { DrawnPassage } from "./drawn-passage";
import type { PassageInput } from "./passage-input";
import { sourceMissing } from "./source-missing";

/**
 * Draws a passage in the thread for passages, which keeps the sources it has read lately: the bytes are asked for only
 * when it has not got them.
 *
 * @throws EngraveFailure when it cannot be engraved or too much is waiting.
 */
export async function engravePassage(
  input: Omit<PassageInput, "source">,
  readSource: () => Promise<Uint8Array>,
): Promise<DrawnPassage> {
  try {
    return await runEngraveJob<"passage">({ kind: "passage", input: { ...input, source: null } });
  } catch (error) {
    if (!isSourceMissing(error)) throw error;
    const source = await readSource();
    return runEngraveJob<"passage">({ kind: "passage", input: { ...input, source } });
  }
}

function isSourceMissing(error: unknown): boolean {
  const problem = error instanceof EngraveFailure ? error.problem : null;
  return problem?.kind === "not-engravable" && problem.detail.startsWith(sourceMissing);
}
