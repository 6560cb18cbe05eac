import { database } from "../database";

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
  readonly snapshot: { readonly sequence: number; readonly state: Uint8Array<ArrayBuffer> } | null;
  readonly updates: readonly RoomLogEntry[];
}

/**
 * Everything needed to build a room's document, as one consistent picture. For the room server, which has
 * checked who connects: there is no viewer.
 *
 * @returns null when there is no such piece.
 */
export async function readRoomLog(pieceId: string): Promise<RoomLog | null> {
  return database().$transaction(
    async (tx) => {
      const piece = await tx.piece.findUnique({
        where: { id: pieceId },
        select: { roomEpoch: true, roomSequence: true },
      });
      if (!piece) return null;
      const epoch = piece.roomEpoch;
      const snapshot = await tx.roomSnapshot.findUnique({
        where: { pieceId_epoch: { pieceId, epoch } },
        select: { sequence: true, state: true },
      });
      const updates = await tx.roomUpdate.findMany({
        where: { pieceId, epoch, sequence: { gt: snapshot?.sequence ?? 0 } },
        orderBy: { sequence: "asc" },
        select: { sequence: true, update: true, userId: true },
      });
      return { epoch, sequence: piece.roomSequence, snapshot, updates };
    },
    { isolationLevel: "RepeatableRead" },
  );
}

/** The updates of a room after `sequence`, in order: what another process appended meanwhile. */
export async function readRoomUpdatesAfter(
  pieceId: string,
  epoch: number,
  sequence: number,
): Promise<RoomLogEntry[]> {
  return database().roomUpdate.findMany({
    where: { pieceId, epoch, sequence: { gt: sequence } },
    orderBy: { sequence: "asc" },
    select: { sequence: true, update: true, userId: true },
  });
}
