import { once } from "node:events";
import { fileURLToPath } from "node:url";
import WebSocket from "ws";
import { endAllSessions } from "@/lib/store/auth/session";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { percentile } from "./percentile";
import { bringRooms, type FurnishedRoom, type RoomGuest } from "./room-people";
import { origin, serveRoomsIfAsked, startRoomServer } from "./room-servers";
import { withThrowAwayDatabase } from "./throw-away-database";

type Row = Record<string, string | number>;

/** Takes somebody's right to be in a room away. */
type Revoke = (room: FurnishedRoom, guest: RoomGuest) => Promise<unknown>;

const ways: Readonly<Record<string, { readonly code: number; readonly revoke: Revoke }>> = {
  "the coach is removed": {
    code: 4403,
    revoke: ({ pieceId, guests }, { userId }) =>
      removeMember({ userId: guests[0]?.userId ?? "" }, pieceId, { userId }),
  },
  "the coach signs out everywhere": { code: 4401, revoke: (_room, { userId }) => endAllSessions({ userId }) },
};

const roomCount = 100;

/** From the moment the right is taken away, to the moment the socket is closed; several hundred others stay open. */
export const benchmark = {
  name: "Rooms: how soon whoever may not be there is out",
  run: (): Promise<Row[]> =>
    withThrowAwayDatabase(async () => {
      const server = await startRoomServer(fileURLToPath(import.meta.url));
      try {
        const rows: Row[] = [];
        for (const [way, { code, revoke }] of Object.entries(ways))
          rows.push({ way, ...(await measure(server.address, code, revoke)) });
        return rows;
      } finally {
        await server.stop();
      }
    }),
};

async function measure(address: string, code: number, revoke: Revoke): Promise<Row> {
  const rooms = await bringRooms(roomCount);
  const sockets = new Map<string, WebSocket>();
  for (const room of rooms)
    for (const guest of room.guests) sockets.set(guest.userId, await enter(address, room, guest));
  const waits: number[] = [];
  let asExpected = 0;
  for (const room of rooms) {
    const coach = room.guests[2];
    const socket = coach && sockets.get(coach.userId);
    if (!coach || !socket) continue;
    const closed = once(socket, "close");
    const start = performance.now();
    await revoke(room, coach);
    const [closedWith] = (await closed) as [number];
    waits.push(performance.now() - start);
    asExpected += Number(closedWith === code);
  }
  const open = [...sockets.values()].filter(({ readyState }) => readyState === WebSocket.OPEN).length;
  for (const socket of sockets.values()) socket.terminate();
  return {
    sockets: sockets.size,
    revoked: waits.length,
    "closed with its code": asExpected,
    "still open": open,
    "p50 ms": percentile(waits, 0.5),
    "longest ms": percentile(waits, 1),
  };
}

/** Settles when the server has said welcome. */
async function enter(address: string, { pieceId }: FurnishedRoom, { cookie }: RoomGuest): Promise<WebSocket> {
  const socket = new WebSocket(`${address}/${pieceId}`, { headers: { cookie, origin } });
  await once(socket, "message");
  return socket;
}

await serveRoomsIfAsked();
