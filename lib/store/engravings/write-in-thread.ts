import path from "node:path";
import { Worker } from "node:worker_threads";
import type { DrawnMusic, MusicToDraw } from "./music-of-view";

/** The bundled thread: made by the start commands and by the tests' set-up. Read at run time, never bundled again. */
function threadFile(): string {
  return path.resolve(/* turbopackIgnore: true */ "dist", "music-worker.mjs");
}

/**
 * `writeDrawnMusic` in a thread of its own: a long score takes a second, in which the server would answer nobody.
 *
 * @throws Error if the stored source can no longer be read.
 */
export function writeInThread(music: DrawnMusic): Promise<MusicToDraw> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(/* turbopackIgnore: true */ threadFile(), { workerData: music });
    worker.once("message", resolve);
    worker.once("error", reject);
    // After an answer or an error this does nothing more.
    worker.once("exit", (code) => reject(new Error(`the thread that writes music ended with ${code}`)));
  });
}
