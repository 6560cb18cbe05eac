import { writeArchive } from "@/lib/zip/write-archive";
import { checkPieceArchive } from "./check-piece-archive";
import type { PieceArchive } from "./piece-archive";
import { pieceEntries } from "./piece-entries";
import { readPieceArchive } from "./read-piece-archive";

/**
 * A whole piece as a file to take along. The same piece is always the same bytes, whenever and wherever it is written,
 * and what is read from them writes the same again.
 *
 * @throws RangeError if it would not pass its own check.
 */
export function writePieceArchive(archive: PieceArchive): Uint8Array<ArrayBuffer> {
  const bytes = writeArchive(pieceEntries(archive));
  const read = readPieceArchive(bytes);
  if (!read.ok) throw new RangeError(`A piece that cannot be packed: ${JSON.stringify(read.problem)}`);
  const faults = checkPieceArchive(read.value).filter(({ holds }) => !holds);
  if (faults.length > 0) {
    throw new RangeError(
      `A piece that cannot be packed: ${faults.flatMap(({ sentences }) => sentences).join(" ")}`,
    );
  }
  return bytes;
}
