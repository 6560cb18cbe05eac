import { runEngraveJob } from "../engraver";
import type { ChangeSheetInput } from "./change-sheet-input";

/**
 * One page that tells what changed from an edition to the next: both as lines of time with their cuts and running times, and each
 * difference in a sentence with its bars.
 *
 * @throws EngraveFailure when the thread that draws cannot be used.
 */
export function printChangeSheet(input: ChangeSheetInput): Promise<Uint8Array> {
  return runEngraveJob<"change-sheet">({ kind: "change-sheet", input });
}
