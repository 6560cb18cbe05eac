import { database } from "../database";

export interface NewRoomSnapshot {
  readonly pieceId: string;
  readonly epoch: number;
  /** The last update of the log that is in `state`. */
  readonly sequence: number;
  /** The whole document as one Yjs update (v1). */
  readonly state: Uint8Array;
}

/**
 * Keeps a snapshot, unless the room started anew or a later one is already kept. The log stays as it is.
 *
 * @returns whether it was kept.
 * @throws RangeError if `sequence` lies beyond the log: such a document holds something that was never stored.
 */
export async function saveRoomSnapshot(snapshot: NewRoomSnapshot): Promise<boolean> {
  const { pieceId, epoch, sequence } = snapshot;
  const state = Buffer.from(snapshot.state);
  return database().$transaction(async (tx) => {
    const [piece] = await tx.$queryRaw<{ roomEpoch: number; roomSequence: number }[]>`
      SELECT "roomEpoch", "roomSequence" FROM "Piece" WHERE "id" = ${pieceId} FOR NO KEY UPDATE`;
    if (!piece || piece.roomEpoch !== epoch) return false;
    if (sequence > piece.roomSequence)
      throw new RangeError(`A snapshot of update ${sequence}, but the log ends at ${piece.roomSequence}`);
    const kept = await tx.$executeRaw`
      INSERT INTO "RoomSnapshot" ("pieceId", "epoch", "sequence", "state")
      VALUES (${pieceId}, ${epoch}, ${sequence}, ${state})
      ON CONFLICT ("pieceId", "epoch") DO UPDATE
        SET "sequence" = EXCLUDED."sequence", "state" = EXCLUDED."state", "createdAt" = now()
        WHERE "RoomSnapshot"."sequence" < EXCLUDED."sequence"`;
    return kept > 0;
  });
}
