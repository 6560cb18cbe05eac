import { runEngraveJob } from "../engraver";
import type { PrintInput } from "../pdf/print-input";
import type { EditionPreview } from "./edition-preview";

/**
 * The pages of an edition as pictures to look at before it is printed, with what each turn asks of the reader. They are those
 * of the PDF (`printEdition`) for the same options.
 *
 * @param onProgress from 0 to 1.
 * @throws EngraveFailure when the score cannot be engraved.
 */
export function previewEdition(
  input: PrintInput,
  onProgress?: (progress: number) => void,
): Promise<EditionPreview> {
  return runEngraveJob<"edition-preview">({ kind: "edition-preview", input }, { onProgress });
}
