import { runEngraveJob } from "../engraver";
import type { PrintInput } from "../pdf/print-input";
import type { LaidOutEdition } from "./laid-out-edition";

/**
 * An edition on its pages as pictures: each system as inert SVG with its place, the words of the page, and what each turn
 * asks of the reader. The pages are those of the PDF (`printEdition`) for the same options. With paper "tablet" they are shaped for an upright
 * screen, three wide by four high, and every page is turned.
 *
 * @param onProgress from 0 to 1.
 * @throws EngraveFailure when the score cannot be engraved.
 */
export function layOutEdition(
  input: PrintInput,
  onProgress?: (progress: number) => void,
): Promise<LaidOutEdition> {
  return runEngraveJob<"edition-pages">({ kind: "edition-pages", input }, { onProgress });
}
