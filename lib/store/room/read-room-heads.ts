import { database } from "../database";

/** Where the log of a room ends. */
export interface RoomHead {
  readonly pieceId: string;
  readonly epoch: number;
  readonly sequence: number;
}

/** So many are read with one query: taking in the answer holds up whatever else this process does. */
const readAtOnce = 100;

/** The heads of several rooms' logs. A piece that does not exist has none. */
export async function readRoomHeads(pieceIds: readonly string[]): Promise<RoomHead[]> {
  const heads: RoomHead[] = [];
  for (let start = 0; start < pieceIds.length; start += readAtOnce)
    heads.push(...(await readSome(pieceIds.slice(start, start + readAtOnce))));
  return heads;
}

async function readSome(pieceIds: string[]): Promise<RoomHead[]> {
  const pieces = await database().piece.findMany({
    where: { id: { in: pieceIds } },
    select: { id: true, roomEpoch: true, roomSequence: true },
  });
  return pieces.map(({ id, roomEpoch, roomSequence }) => ({
    pieceId: id,
    epoch: roomEpoch,
    sequence: roomSequence,
  }));
}
