import { sha256 } from "@noble/hashes/sha2";
import { bytesToHex } from "@noble/hashes/utils";
import { hashText } from "@/lib/edition/hash-terms";
import type { LaidOutEdition } from "../pages/laid-out-edition";
import { remember } from "../remember";
import type { PrintInput } from "./print-input";

/** Both players' pages of one edition, and those of one before. Forty pages are some ten megabytes. */
const mostKept = 3;
const kept = new Map<string, LaidOutEdition>();

/**
 * The pages of an edition as they were laid out lately in this thread, or as they are made now. Whoever has looked at the pages
 * prints the same ones next: they are engraved once. Not to be changed.
 */
export function placedLately(input: PrintInput, place: () => LaidOutEdition): LaidOutEdition {
  return remember(kept, mostKept, nameOf(input), place);
}

/** Equal for inputs that give the same pages. */
function nameOf({ sourceMusicXml, ...rest }: PrintInput): string {
  return hashText(JSON.stringify([bytesToHex(sha256(sourceMusicXml)), rest]));
}
