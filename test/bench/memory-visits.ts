import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import WebSocket from "ws";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { messageTypes, syncTypes, writePresence, writeSyncStep1, writeUpdate } from "@/realtime/protocol";
import type { FurnishedRoom, RoomGuest } from "./room-people";
import { origin } from "./room-servers";

export const guestsIn = ["pianist", "soloist"] as const;

export interface MemoryVisits {
  /** Settles when the last people have left. */
  readonly done: Promise<unknown>;
  readonly count: () => number;
  /** Visits in which what was written did not arrive. */
  readonly failed: () => number;
}

interface Visiting {
  readonly address: string;
  readonly rooms: readonly FurnishedRoom[];
  readonly isOver: () => boolean;
}

const visitsAtOnce = 24;
/** A visit in which nothing arrives any more has failed. */
const longestVisitMs = 20_000;

/** After so many rounds nobody writes any more: what a room's log holds must not grow, or memory grows with it. */
const roundsOfWriting = 8;

/** Two people enter a room, one writes, the other sees it, both leave: in all rooms, over and over. */
export function visitAgainAndAgain({ address, rooms, isOver }: Visiting): MemoryVisits {
  let [next, count, failed] = [0, 0, 0];
  const visitor = async () => {
    while (!isOver()) {
      const room = rooms[next % rooms.length];
      const isWriting = next < rooms.length * roundsOfWriting;
      next += 1;
      if (room && (await visit(address, room, isWriting))) count += 1;
      else failed += 1;
    }
  };
  return {
    done: Promise.all(Array.from({ length: visitsAtOnce }, visitor)),
    count: () => count,
    failed: () => failed,
  };
}

async function visit(
  address: string,
  { pieceId, guests }: FurnishedRoom,
  isWriting: boolean,
): Promise<boolean> {
  const [writer, witness] = guests;
  if (!writer || !witness) return false;
  const pages = [writer, witness].map((guest) => new Page(`${address}/${pieceId}`, guest));
  const [writing, seeing] = pages;
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<boolean>((resolve) => {
    timer = setTimeout(resolve, longestVisitMs, false);
  });
  const seen = (async () => {
    await Promise.all(pages.map(({ ready }) => ready));
    if (!isWriting) return true;
    const sees = seeing?.nextUpdate();
    writing?.say();
    await Promise.all([sees, writing?.acknowledged]);
    return true;
  })();
  const isSeen = await Promise.race([seen.catch(() => false), tooLate]);
  clearTimeout(timer);
  await Promise.all(pages.map((page) => page.leave()));
  return isSeen;
}

/** A page with the room open. */
class Page {
  readonly ready: Promise<void>;
  readonly acknowledged: Promise<void>;
  readonly #doc = openRoomDoc();
  readonly #socket: WebSocket;
  #tellReady: () => void = () => {};
  #tellAcknowledged: () => void = () => {};
  #tellUpdate: () => void = () => {};

  constructor(
    address: string,
    private readonly guest: RoomGuest,
  ) {
    const headers = { cookie: guest.cookie, origin };
    this.#socket = new WebSocket(address, { headers, perMessageDeflate: false });
    this.ready = new Promise((resolve, reject) => {
      this.#tellReady = resolve;
      this.#socket.on("error", reject);
    });
    this.acknowledged = new Promise((resolve) => {
      this.#tellAcknowledged = resolve;
    });
    this.#socket.on("open", () => {
      this.#socket.send(writeSyncStep1(Y.encodeStateVector(this.#doc)));
      this.#socket.send(writePresence(whereabouts(this.#doc.clientID)));
    });
    this.#socket.on("message", (frame: Buffer) => this.#take(frame));
  }

  nextUpdate(): Promise<void> {
    return new Promise((resolve) => {
      this.#tellUpdate = resolve;
    });
  }

  /** Moves the one breath that this person has marked: the room does not grow with its visits. */
  say(): void {
    const id = `breath-of-${this.guest.userId}`;
    const at = { barIndex: Math.floor(Math.random() * 400), offset: "1/2" };
    this.#doc.once("update", (update: Uint8Array) => this.#socket.send(writeUpdate(update)));
    this.#doc.getMap("breaths").set(id, { id, authorId: this.guest.userId, at, deletedAt: null });
  }

  leave(): Promise<void> {
    this.#doc.destroy();
    return new Promise((resolve) => {
      this.#socket.once("close", () => resolve());
      if (this.#socket.readyState === WebSocket.CLOSED) resolve();
      this.#socket.close();
    });
  }

  #take(frame: Buffer): void {
    const decoder = decoding.createDecoder(frame);
    const type = decoding.readVarUint(decoder);
    if (type === messageTypes.acknowledgement) this.#tellAcknowledged();
    if (type !== messageTypes.sync) return;
    const step = decoding.readVarUint(decoder);
    if (step === syncTypes.step1) return;
    Y.applyUpdate(this.#doc, decoding.readVarUint8Array(decoder));
    if (step === syncTypes.step2) this.#tellReady();
    else this.#tellUpdate();
  }
}

/** An awareness update (y-protocols) of one page. */
function whereabouts(clientId: number): Uint8Array {
  return encoding.encode((encoder) => {
    for (const number of [1, clientId, 1]) encoding.writeVarUint(encoder, number);
    encoding.writeVarString(encoder, JSON.stringify({ view: { barIndex: 3, editing: null } }));
  });
}
