import path from "node:path";
import { Worker } from "node:worker_threads";
import type { WholePiece } from "./read-whole-piece";

/** Rows of a piece, and the pages that go with them. */
export interface PieceToPack {
  readonly row: WholePiece;
  readonly pages: ReadonlyMap<string, Uint8Array>;
}

/** The bundled thread: made by the start commands and by the tests' set-up. Read at run time, never bundled again. */
function threadFile(): string {
  return path.resolve(/* turbopackIgnore: true */ "dist", "pack-piece-worker.mjs");
}

/**
 * A whole piece as the bytes of its archive (see `writePieceArchive`), made in a thread of its own: a piece with many editions takes
 * seconds, in which the server would answer nobody.
 *
 * @throws Error if the rows do not belong together, or a stored source can no longer be read.
 */
export function packInThread(piece: PieceToPack): Promise<Uint8Array<ArrayBuffer>> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(/* turbopackIgnore: true */ threadFile(), { workerData: piece });
    worker.once("message", resolve);
    worker.once("error", reject);
    // After an answer or an error this does nothing more.
    worker.once("exit", (code) => reject(new Error(`the thread that packs a piece ended with ${code}`)));
  });
}
