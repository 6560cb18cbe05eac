import * as Y from "yjs";
import { applyInTurns } from "@/lib/room/apply-in-turns";
import { findOwners } from "@/lib/room/find-owners";
import { hasGap } from "@/lib/room/merge-updates";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { openSnapshot, type SnapshotMisfit } from "@/lib/room/open-snapshot";
import { failure, type Result } from "@/lib/score/result";
import {
  type RoomLog,
  type RoomLogEntry,
  readRoomLog,
  readRoomUpdatesAfter,
  readWholeRoomLog,
} from "@/lib/store/room/read-room-log";
import { type Log, logToStderr } from "./log-line";

export interface StoredRoom {
  readonly epoch: number;
  /** The last entry of the log that is in `doc`. */
  readonly sequence: number;
  readonly doc: Y.Doc;
  /** Which person each Yjs client in the document belongs to. */
  readonly owners: Map<number, string>;
  /** How many entries stand in the log after the last snapshot that is of use. */
  readonly sinceSnapshot: number;
  /** Whether there is a snapshot that does not fit the log. */
  readonly hasBadSnapshot: boolean;
}

/**
 * Builds a room's document from its snapshot and what was logged after it; from the whole log when the snapshot
 * does not fit, which is then noted.
 *
 * @returns null when there is no such piece.
 * @throws when the database does not answer or the log is not whole: such a room is not opened, never
 * started empty.
 */
export async function loadRoom(pieceId: string, log: Log = logToStderr): Promise<StoredRoom | null> {
  const stored = await readRoomLog(pieceId);
  if (stored === null) return null;
  if (stored.snapshot === null) return toStoredRoom(stored, await buildFromLog(stored), false);
  const built = await buildFromSnapshot(stored);
  if (built.ok) return toStoredRoom(stored, built.value, false);
  log({ what: "snapshot-passed-over", pieceId, detail: built.problem });
  const whole = await readWholeRoomLog(pieceId);
  return whole && toStoredRoom(whole, await buildFromLog(whole), true);
}

function toStoredRoom(stored: RoomLog, doc: Y.Doc, hasBadSnapshot: boolean): StoredRoom {
  const { epoch, sequence, updates } = stored;
  const owners = findOwners(doc);
  for (const entry of updates) noteOwner(owners, entry);
  return { epoch, sequence, doc, owners, sinceSnapshot: updates.length, hasBadSnapshot };
}

/** @throws Error if the log is not whole. */
async function buildFromLog({ epoch, epochStart, sequence, updates }: RoomLog): Promise<Y.Doc> {
  if (epoch > 1 && updates.length === 0) throw new Error("the epoch has no first entry");
  checkConsecutive(epochStart, updates);
  checkEnd(epochStart + updates.length, sequence);
  const doc = openRoomDoc();
  await applyInTurns(
    doc,
    updates.map(({ update }) => update),
  );
  if (hasGap(doc)) throw new Error("the log of the room has a gap");
  return doc;
}

type Misfit = SnapshotMisfit | "ahead-of-the-log";

/** @throws Error if what was logged after the snapshot is not whole. */
async function buildFromSnapshot({ sequence, snapshot, updates }: RoomLog): Promise<Result<Y.Doc, Misfit>> {
  if (!snapshot?.last) return failure("ahead-of-the-log");
  checkConsecutive(snapshot.sequence, updates);
  checkEnd(snapshot.sequence + updates.length, sequence);
  const after = updates.map(({ update }) => update);
  return openSnapshot(snapshot.state, snapshot.last.update, after);
}

function checkEnd(end: number, sequence: number): void {
  if (end !== sequence) throw new Error(`the log ends at ${end} and not at ${sequence}`);
}

function checkConsecutive(after: number, updates: readonly RoomLogEntry[]): void {
  updates.forEach((entry, index) => {
    if (entry.sequence !== after + 1 + index)
      throw new Error(`update ${after + 1 + index} is missing in the log`);
  });
}

/** Remembers that the clients of an update are the person's who wrote it. */
export function noteOwner(
  owners: Map<number, string>,
  { update, userId }: { update: Uint8Array; userId: string | null },
): void {
  // What a new epoch began with was written by no page: nobody numbers writes as it did.
  if (userId === null) return;
  for (const clientId of Y.parseUpdateMeta(update).to.keys()) owners.set(clientId, userId);
}

/** What was appended after `sequence`, whole and in order. @throws as `loadRoom`. */
export async function readSince(pieceId: string, epoch: number, sequence: number): Promise<RoomLogEntry[]> {
  const entries = await readRoomUpdatesAfter(pieceId, epoch, sequence);
  checkConsecutive(sequence, entries);
  return entries;
}
