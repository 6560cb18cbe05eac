import * as Y from "yjs";
import { findOwners } from "@/lib/room/find-owners";
import { hasGap, mergeUpdates } from "@/lib/room/merge-updates";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import {
  type RoomLog,
  type RoomLogEntry,
  readRoomLog,
  readRoomUpdatesAfter,
} from "@/lib/store/room/read-room-log";
import { saveRoomSnapshot } from "@/lib/store/room/room-snapshot";

export interface StoredRoom {
  readonly epoch: number;
  /** The last entry of the log that is in `doc`. */
  readonly sequence: number;
  readonly doc: Y.Doc;
  /** Which person each Yjs client in the document belongs to. */
  readonly owners: Map<number, string>;
  /** How many entries stand in the log after the last snapshot. */
  readonly sinceSnapshot: number;
}

/**
 * Builds a room's document from its snapshot and its log.
 *
 * @returns null when there is no such piece.
 * @throws when the database does not answer or the log is not whole: such a room is not opened, never
 * started empty.
 */
export async function loadRoom(pieceId: string): Promise<StoredRoom | null> {
  const log = await readRoomLog(pieceId);
  if (log === null) return null;
  checkWhole(log);
  const doc = openRoomDoc();
  doc.transact(() => {
    for (const update of updatesOf(log)) Y.applyUpdate(doc, update);
  });
  if (hasGap(doc)) throw new Error("the log of the room has a gap");
  const owners = findOwners(doc);
  for (const entry of log.updates) noteOwner(owners, entry);
  return { epoch: log.epoch, sequence: log.sequence, doc, owners, sinceSnapshot: log.updates.length };
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

function updatesOf(log: RoomLog): Uint8Array[] {
  const updates: Uint8Array[] = log.updates.map(({ update }) => update);
  return log.snapshot ? [log.snapshot.state, ...updates] : updates;
}

/** Sequences count without a gap up to the head of the log. */
function checkWhole({ sequence, snapshot, updates }: RoomLog): void {
  const first = updates[0]?.sequence;
  const start = snapshot?.sequence ?? (first === undefined ? sequence : first - 1);
  checkConsecutive(start, updates);
  const end = updates.at(-1)?.sequence ?? start;
  if (end !== sequence) throw new Error(`the log ends at ${end} and not at ${sequence}`);
}

function checkConsecutive(after: number, updates: readonly RoomLogEntry[]): void {
  updates.forEach((entry, index) => {
    if (entry.sequence !== after + 1 + index)
      throw new Error(`update ${after + 1 + index} is missing in the log`);
  });
}

/** What was appended after `sequence`, whole and in order. @throws as `loadRoom`. */
export async function readSince(pieceId: string, epoch: number, sequence: number): Promise<RoomLogEntry[]> {
  const entries = await readRoomUpdatesAfter(pieceId, epoch, sequence);
  checkConsecutive(sequence, entries);
  return entries;
}

/** Makes a snapshot from the stored log, never from what a server holds in memory. The log stays. */
export async function takeSnapshot(pieceId: string): Promise<void> {
  const log = await readRoomLog(pieceId);
  if (log === null || log.updates.length === 0) return;
  checkWhole(log);
  const state = mergeUpdates(updatesOf(log));
  await saveRoomSnapshot({ pieceId, epoch: log.epoch, sequence: log.sequence, state });
}
