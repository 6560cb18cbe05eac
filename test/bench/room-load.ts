import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { RoomClient } from "./room-client";
import type { FurnishedRoom } from "./room-people";
import { origin } from "./room-servers";
import { Tally } from "./tally";

export interface Load {
  /** Of the servers; the people of each room are spread over all of them. */
  readonly addresses: readonly string[];
  readonly rooms: readonly FurnishedRoom[];
  /** Over all rooms together. */
  readonly updatesPerSecond: number;
  /** Whether the players still write after so many seconds. */
  readonly goesOn: (secondsPassed: number) => boolean;
  /** Whether the servers store what they take; without a log, clients are compared with each other. */
  readonly hasLog: boolean;
}

export interface LoadResult {
  readonly tally: Tally;
  /** Breaths that were written and are not in the log. */
  readonly lost: number;
  /** Clients whose room is not the log's. */
  readonly diverged: number;
}

interface Stay {
  readonly pieceId: string;
  readonly clients: readonly RoomClient[];
}

/** Whatever has not arrived by then is late for good. */
const longestWaitMs = 15_000;

/**
 * Lets the players of all rooms write, until all is vouched for and seen, and compares with the log.
 *
 * @param onWriting called when everybody is in their room, and awaited when all has arrived.
 */
export async function runLoad(
  load: Load,
  onWriting: () => Promise<() => Promise<void>>,
): Promise<LoadResult> {
  const tally = tallyFor(load);
  const stays = await enterAll(load, tally);
  try {
    const onArrived = await onWriting();
    await writeForAWhile(playersOf(stays), load);
    await tally.untilComplete(longestWaitMs);
    await onArrived();
    return { tally, ...(await compare(stays, tally, load.hasLog)) };
  } finally {
    leaveAll(stays);
  }
}

function tallyFor({ rooms }: Load): Tally {
  return new Tally((rooms[0]?.guests.length ?? 1) - 1);
}

/** So many knock at once: the queue of a listening socket is not what is measured. */
const enteringAtOnce = 60;

async function enterAll({ addresses, rooms, hasLog }: Load, tally: Tally): Promise<Stay[]> {
  const stays: Stay[] = [];
  const perTurn = Math.max(1, Math.floor(enteringAtOnce / (rooms[0]?.guests.length ?? 1)));
  for (let start = 0; start < rooms.length; start += perTurn) {
    const entering = rooms.slice(start, start + perTurn).map(({ pieceId, guests }, index) => ({
      pieceId,
      clients: guests.map((guest, place) => {
        const address = `${addresses[(start + index + place) % addresses.length]}/${pieceId}`;
        return new RoomClient({
          address,
          origin,
          guest,
          tally,
          vouching: hasLog ? "acknowledgement" : "echo",
        });
      }),
    }));
    stays.push(...entering);
    await Promise.all(entering.flatMap(({ clients }) => clients.map(({ ready }) => ready)));
  }
  return stays;
}

function playersOf(stays: readonly Stay[]): RoomClient[] {
  return stays.flatMap(({ clients }) => clients.filter(({ isPlayer }) => isPlayer));
}

function leaveAll(stays: readonly Stay[]): void {
  for (const { clients } of stays) for (const client of clients) client.close();
}

function writeForAWhile(
  players: readonly RoomClient[],
  { updatesPerSecond, goesOn }: Pick<Load, "updatesPerSecond" | "goesOn">,
): Promise<void> {
  return new Promise((resolve) => {
    const start = performance.now();
    let sent = 0;
    const turn = () => {
      const passed = (performance.now() - start) / 1000;
      if (!goesOn(passed)) return resolve();
      for (; sent < passed * updatesPerSecond; sent += 1)
        players[Math.floor(Math.random() * players.length)]?.write();
      setTimeout(turn, 1);
    };
    turn();
  });
}

async function compare(stays: readonly Stay[], tally: Tally, hasLog: boolean) {
  const unseen = new Set(tally.ids());
  let diverged = 0;
  for (const { pieceId, clients } of stays) {
    const doc = hasLog ? await readStoredRoom(pieceId) : clients[0]?.doc;
    if (!doc) continue;
    for (const key of doc.getMap("breaths").keys()) unseen.delete(key);
    const expected = roomAsJson(doc);
    diverged += clients.filter((client) => roomAsJson(client.doc) !== expected).length;
  }
  return { lost: unseen.size, diverged };
}

/** A room as its log in the database tells it. */
async function readStoredRoom(pieceId: string): Promise<Y.Doc> {
  const doc = openRoomDoc();
  const log = await readRoomLog(pieceId);
  if (log?.snapshot) Y.applyUpdate(doc, log.snapshot.state);
  for (const { update } of log?.updates ?? []) Y.applyUpdate(doc, update);
  return doc;
}
