import { database } from "../database";

/** Where the log of a room ends. */
export interface RoomHead {
  readonly pieceId: string;
  readonly epoch: number;
  readonly sequence: number;
}

/** The heads of several rooms' logs. A piece that does not exist has none. */
export async function readRoomHeads(pieceIds: readonly string[]): Promise<RoomHead[]> {
  const pieces = await database().piece.findMany({
    where: { id: { in: [...pieceIds] } },
    select: { id: true, roomEpoch: true, roomSequence: true },
  });
  return pieces.map(({ id, roomEpoch, roomSequence }) => ({
    pieceId: id,
    epoch: roomEpoch,
    sequence: roomSequence,
  }));
}
