import type { Prisma } from "@/generated/prisma/client";
import { database } from "../database";
import { journalConnections } from "../journal-connections";

export interface RoomLogEntry {
  readonly sequence: number;
  readonly update: Uint8Array<ArrayBuffer>;
  /** Null in the first entry of an epoch that began anew. */
  readonly userId: string | null;
}

/** What a room's document is made of: the snapshot first, when there is one, then the updates after it. */
export interface RoomLog {
  readonly epoch: number;
  /** Sequence of the last entry; 0 for an empty room. */
  readonly sequence: number;
  /** Sequence of the last entry of the epochs before; 0 in the first. */
  readonly epochStart: number;
  readonly snapshot: RoomLogSnapshot | null;
  readonly updates: readonly RoomLogEntry[];
}

export interface RoomLogSnapshot {
  /** The last entry that is in `state`. */
  readonly sequence: number;
  readonly state: Uint8Array<ArrayBuffer>;
  /** That entry itself; null when the log does not have it. */
  readonly last: RoomLogEntry | null;
}

/**
 * Everything needed to build a room's document, as one consistent picture. For the room server, which has
 * checked who connects: there is no viewer.
 *
 * @returns null when there is no such piece.
 */
export function readRoomLog(pieceId: string): Promise<RoomLog | null> {
  return readLog(pieceId, true);
}

/** As `readRoomLog`, but every entry of the epoch, as if there were no snapshot. */
export function readWholeRoomLog(pieceId: string): Promise<RoomLog | null> {
  return readLog(pieceId, false);
}

async function readLog(pieceId: string, isFromSnapshot: boolean): Promise<RoomLog | null> {
  return database().$transaction((tx) => readRoomLogIn(tx, pieceId, isFromSnapshot), {
    isolationLevel: "RepeatableRead",
  });
}

/** As `readRoomLog`, in a transaction that sees one picture: a repeatable read, or one that holds the piece. */
export async function readRoomLogIn(
  tx: Prisma.TransactionClient,
  pieceId: string,
  isFromSnapshot = true,
): Promise<RoomLog | null> {
  const piece = await tx.piece.findUnique({
    where: { id: pieceId },
    select: { roomEpoch: true, roomSequence: true },
  });
  if (!piece) return null;
  const { roomEpoch: epoch, roomSequence: sequence } = piece;
  const snapshot = isFromSnapshot ? await findSnapshot(tx, pieceId, epoch) : null;
  // The entry that the snapshot ends with is read too: the two must fit each other.
  const entries = await readEntries(tx, pieceId, epoch, { after: (snapshot?.sequence ?? 0) - 1 });
  const epochStart = await findEpochStart(tx, pieceId, epoch);
  if (!snapshot) return { epoch, sequence, epochStart, snapshot: null, updates: entries };
  const last = entries.find((entry) => entry.sequence === snapshot.sequence) ?? null;
  const updates = entries.filter((entry) => entry.sequence > snapshot.sequence);
  return { epoch, sequence, epochStart, snapshot: { ...snapshot, last }, updates };
}

function findSnapshot(tx: Prisma.TransactionClient, pieceId: string, epoch: number) {
  return tx.roomSnapshot.findUnique({
    where: { pieceId_epoch: { pieceId, epoch } },
    select: { sequence: true, state: true },
  });
}

/** Where the epochs before this one end; 0 when there is none. */
export async function findEpochStart(
  tx: Prisma.TransactionClient,
  pieceId: string,
  epoch: number,
): Promise<number> {
  if (epoch === 1) return 0;
  const before = await tx.roomUpdate.aggregate({
    where: { pieceId, epoch: { lt: epoch } },
    _max: { sequence: true },
  });
  return before._max.sequence ?? 0;
}

/** Entries of one epoch after one of them, in order; at most `most` when that is given. */
export function readEntries(
  tx: Prisma.TransactionClient,
  pieceId: string,
  epoch: number,
  { after, most }: { after: number; most?: number },
): Promise<RoomLogEntry[]> {
  return tx.roomUpdate.findMany({
    where: { pieceId, epoch, sequence: { gt: after } },
    orderBy: { sequence: "asc" },
    select: { sequence: true, update: true, userId: true },
    ...(most === undefined ? {} : { take: most }),
  });
}

const entriesAfter = `
  SELECT "sequence", "update", "userId" FROM "RoomUpdate"
  WHERE "pieceId" = $1 AND "epoch" = $2 AND "sequence" > $3 ORDER BY "sequence"`;

/** The updates of a room after `sequence`, in order: what another process appended meanwhile. */
export async function readRoomUpdatesAfter(
  pieceId: string,
  epoch: number,
  sequence: number,
): Promise<RoomLogEntry[]> {
  // Asked for each update that another process appends, hence prepared once.
  const { rows } = await journalConnections().query<[number, Buffer, string | null]>({
    name: "room-updates-after",
    text: entriesAfter,
    values: [pieceId, epoch, sequence],
    rowMode: "array",
  });
  return rows.map(([place, update, userId]) => ({ sequence: place, update: new Uint8Array(update), userId }));
}
