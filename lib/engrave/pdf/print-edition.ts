import { runEngraveJob } from "../engraver";
import type { PrintedEdition, PrintInput } from "./print-input";

/**
 * An edition as a PDF: vector, fonts embedded, cuts carried out and marked, bar numbers those of the source at the
 * start of each line and after each join, a title block on page 1, edition and hash at the foot of every page. Pages
 * end where the reader can turn; what each turn asks is told beside the file, and "V.S." or "time" is printed under the page.
 *
 * @throws EngraveFailure when the score cannot be engraved.
 */
export function printEdition(
  input: PrintInput,
  onProgress?: (progress: number) => void,
): Promise<PrintedEdition> {
  return runEngraveJob<"edition">({ kind: "edition", input }, { onProgress });
}
