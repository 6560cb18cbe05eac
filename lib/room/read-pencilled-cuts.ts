import type * as Y from "yjs";
import { findHeads } from "./find-heads";
import type { PencilledCut, PencilledVersion } from "./pencilled-cut";
import type { PencilledVersionRecord } from "./pencilled-version-record";
import { groupVersions, termsOf } from "./pencilled-versions";
import { toPosition } from "./position-record";
import { readRecords } from "./read-records";

/** The pencilled cuts that stand, in the order in which they were first pencilled in. */
export function readPencilledCuts(doc: Y.Doc): PencilledCut[] {
  return readAllCuts(doc).filter((cut) => !isRubbedOut(cut));
}

/** The pencilled cuts that were rubbed out and can be brought back. */
export function readRubbedOut(doc: Y.Doc): PencilledCut[] {
  return readAllCuts(doc).filter(isRubbedOut);
}

function readAllCuts(doc: Y.Doc): PencilledCut[] {
  return [...groupVersions(readRecords(doc, "pencilledCuts"))].map(([cutId, versions]) => ({
    cutId,
    versions: withoutRepeats(findHeads(versions)).map(toVersion),
  }));
}

function isRubbedOut({ versions }: PencilledCut): boolean {
  return versions.every((version) => version.isRubbedOut);
}

/** What two wrote alike is one: the earlier is kept. */
function withoutRepeats(heads: readonly PencilledVersionRecord[]): PencilledVersionRecord[] {
  const byTerms = new Map<string, PencilledVersionRecord>();
  for (const head of heads) {
    const terms = termsOf(head);
    if (!byTerms.has(terms)) byTerms.set(terms, head);
  }
  return [...byTerms.values()];
}

function toVersion(record: PencilledVersionRecord): PencilledVersion {
  const { id, authorId, createdAt, isRubbedOut } = record;
  return { id, authorId, createdAt, from: toPosition(record.from), to: toPosition(record.to), isRubbedOut };
}
