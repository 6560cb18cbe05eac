import { writeArchive } from "@/lib/zip/write-archive";
import { archiveEntries } from "./archive-entries";
import { checkEditionArchive } from "./check-edition-archive";
import type { EditionArchive } from "./edition-archive";
import { type ReadArchive, readEditionArchive } from "./read-edition-archive";

/**
 * An edition as a file to take along. The same archive is always the same bytes, whenever and wherever it is written,
 * and what is read from them writes the same again.
 *
 * @throws RangeError if it would not pass its own check: a hash that is not that of its content, a gap in the chain,
 * an approval of something else, a source that is missing.
 */
export function writeEditionArchive(archive: EditionArchive): Uint8Array<ArrayBuffer> {
  const bytes = writeArchive(archiveEntries(archive));
  const read = readEditionArchive(bytes);
  if (!read.ok) throw new RangeError(`An edition that cannot be exported: ${JSON.stringify(read.problem)}`);
  const faults = checkEditionArchive(read.value).filter(({ holds }) => !holds);
  if (faults.length > 0) {
    throw new RangeError(
      `An edition that cannot be exported: ${faults.flatMap(({ sentences }) => sentences).join(" ")}`,
    );
  }
  return bytes;
}

/**
 * Whether the bytes are exactly those that we write for what was read from them. Other programs pack the same files
 * into other bytes; in what we wrote ourselves any difference is a change made since.
 */
export function isPackedByUs(bytes: Uint8Array, { archive }: ReadArchive): boolean {
  const ours = packAgain(archive);
  return ours?.length === bytes.length && ours.every((byte, index) => byte === bytes[index]);
}

/** Null for text that has no normal form (half a character): we never wrote it. */
function packAgain(archive: EditionArchive): Uint8Array | null {
  try {
    return writeArchive(archiveEntries(archive));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
