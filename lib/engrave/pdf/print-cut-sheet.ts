import { runEngraveJob } from "../engraver";
import type { CutSheetInput } from "./cut-sheet-input";

/**
 * One page for both music stands: the piece as a strip, each cut with its join engraved, what it saves, and who agreed.
 * Joins that find no room are listed without their music.
 *
 * @throws EngraveFailure when a join cannot be engraved.
 */
export function printCutSheet(input: CutSheetInput): Promise<Uint8Array> {
  return runEngraveJob<"cut-sheet">({ kind: "cut-sheet", input });
}
