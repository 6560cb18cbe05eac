import * as Y from "yjs";
import { failure, type Result, success } from "@/lib/score/result";
import { applyInTurns } from "./apply-in-turns";
import { hasGap } from "./merge-updates";
import { openRoomDoc } from "./open-room-doc";

/** Why a snapshot cannot stand for the beginning of its log. */
export type SnapshotMisfit =
  /** It is no Yjs update. */
  | "unreadable"
  /** The entry that it is said to end with is not in it. */
  | "lacks-its-last-entry"
  /** What was written after it rests on something that is not in it. */
  | "has-a-gap";

/**
 * The document of a snapshot and what was written after it.
 *
 * @param state the snapshot, a Yjs update (v1).
 * @param last the entry of the log that the snapshot is said to end with.
 * @param after the entries of the log after that one, in order.
 */
export async function openSnapshot(
  state: Uint8Array,
  last: Uint8Array,
  after: readonly Uint8Array[],
): Promise<Result<Y.Doc, SnapshotMisfit>> {
  const doc = openRoomDoc();
  const misfit = await fill(doc, state, last, after);
  if (misfit === null) return success(doc);
  doc.destroy();
  return failure(misfit);
}

async function fill(
  doc: Y.Doc,
  state: Uint8Array,
  last: Uint8Array,
  after: readonly Uint8Array[],
): Promise<SnapshotMisfit | null> {
  try {
    Y.applyUpdate(doc, state);
  } catch {
    return "unreadable";
  }
  if (!hasAll(doc, last)) return "lacks-its-last-entry";
  await applyInTurns(doc, after);
  return hasGap(doc) ? "has-a-gap" : null;
}

/** Whether every write of an update is in the document already. */
function hasAll(doc: Y.Doc, update: Uint8Array): boolean {
  return [...Y.parseUpdateMeta(update).to].every(([client, end]) => Y.getState(doc.store, client) >= end);
}
