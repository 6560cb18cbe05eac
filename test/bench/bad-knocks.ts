import { randomBytes, randomUUID } from "node:crypto";
import { once } from "node:events";
import net from "node:net";
import type { RoomGuest } from "./room-people";

export interface Door {
  readonly port: number;
  readonly origin: string;
  /** A room that the person belongs to, and one that they do not. */
  readonly pieceId: string;
  readonly foreignPieceId: string;
  readonly guest: RoomGuest;
  /** A ticket that was used before. */
  readonly usedTicket: string;
}

interface Request {
  readonly path?: string;
  readonly cookie?: string | null;
  readonly origin?: string;
}

/** The text of an upgrade request (RFC 6455), right but for what is given. */
function upgrade(
  door: Door,
  { path, cookie = door.guest.cookie, origin = door.origin }: Request = {},
): string {
  return [
    `GET ${path ?? `/rooms/${door.pieceId}`} HTTP/1.1`,
    "Host: rooms.test",
    "Connection: Upgrade",
    "Upgrade: websocket",
    "Sec-WebSocket-Version: 13",
    `Sec-WebSocket-Key: ${randomBytes(16).toString("base64")}`,
    `Origin: ${origin}`,
    ...(cookie === null ? [] : [`Cookie: ${cookie}`]),
    "\r\n",
  ].join("\r\n");
}

/** What is said at the door by somebody who may not come in. */
export const badKnocks: Readonly<Record<string, (door: Door) => string | Uint8Array>> = {
  "no cookie": (door) => upgrade(door, { cookie: null }),
  "wrong cookie": (door) => upgrade(door, { cookie: `next-auth.session-token=${randomUUID()}` }),
  "wrong origin": (door) => upgrade(door, { origin: "http://elsewhere.test" }),
  "wrong path": (door) => upgrade(door, { path: `/rooms/${"x".repeat(80)}/../..` }),
  "foreign piece": (door) => upgrade(door, { path: `/rooms/${door.foreignPieceId}` }),
  "piece that is not": (door) => upgrade(door, { path: `/rooms/${randomUUID()}` }),
  "used-up ticket": (door) =>
    upgrade(door, { path: `/rooms/${door.pieceId}?ticket=${door.usedTicket}`, cookie: null }),
  "no key": (door) => upgrade(door).replace(/Sec-WebSocket-Key: \S+\r\n/, ""),
  "bytes that are no request": () => randomBytes(120),
};

/** Says something at the door; the status of the answer, or that there was none. */
export async function knock(port: number, localAddress: string, words: string | Uint8Array): Promise<string> {
  const socket = net.connect({ port, host: "127.0.0.1", localAddress });
  socket.on("error", () => {});
  socket.write(words);
  const answer = new Promise<string>((resolve) => {
    socket.once("data", (data) =>
      resolve(/^HTTP\/1\.1 (\d{3})/.exec(data.toString("latin1"))?.[1] ?? "unclear"),
    );
    socket.once("close", () => resolve("hung up"));
  });
  const told = await answer;
  socket.destroy();
  return told;
}

/** Begins a request and goes away in the middle of it. */
export async function hangUpHalfway(port: number, localAddress: string, door: Door): Promise<string> {
  const socket = net.connect({ port, host: "127.0.0.1", localAddress });
  socket.on("error", () => {});
  const words = upgrade(door);
  await once(socket, "connect");
  await new Promise<void>((resolve) => socket.write(words.slice(0, words.length / 2), () => resolve()));
  socket.resetAndDestroy();
  return "left";
}

/** Sends the whole request and goes away before the answer. */
export async function hangUpAtTheDoor(port: number, localAddress: string, door: Door): Promise<string> {
  const socket = net.connect({ port, host: "127.0.0.1", localAddress });
  socket.on("error", () => {});
  await once(socket, "connect");
  await new Promise<void>((resolve) => socket.write(upgrade(door), () => resolve()));
  socket.resetAndDestroy();
  return "left";
}
