import { randomUUID } from "node:crypto";
import * as decoding from "lib0/decoding";
import WebSocket from "ws";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import {
  messageTypes,
  readAcknowledgement,
  syncTypes,
  writeSyncStep1,
  writeUpdate,
} from "@/realtime/protocol";

export interface LoadGuest {
  readonly userId: string;
  readonly cookie: string;
  /** Whether they mark breaths, or only look on. */
  readonly isPlayer: boolean;
}

export interface LoadRoom {
  readonly pieceId: string;
  readonly guests: readonly LoadGuest[];
}

export interface Load {
  readonly address: string;
  readonly origin: string;
  readonly rooms: readonly LoadRoom[];
  readonly updatesPerSecond: number;
  readonly seconds: number;
}

/** Milliseconds from writing to being acknowledged, and to being seen by each of the others. */
export interface LoadResult {
  readonly sent: number;
  readonly acknowledged: readonly number[];
  readonly seen: readonly number[];
  /** Breaths that were written and are not in the log. */
  readonly lost: number;
  /** Clients whose room is not the log's. */
  readonly diverged: number;
}

export interface KillResult {
  /** Breaths that were acknowledged to their writer, or seen by another, before the server died. */
  readonly promised: number;
  /** Those of them that are not in the log. */
  readonly lost: number;
}

/** When each breath was written, by its id; all clients run in this process and share its clock. */
const writtenAt = new Map<string, number>();

/** A client reduced to what is measured: a document and a socket. */
class LoadClient {
  readonly doc = openRoomDoc();
  readonly acknowledged: number[] = [];
  readonly seen: number[] = [];
  /** Breaths that the server has vouched for. */
  readonly promised = new Set<string>();
  readonly #socket: WebSocket;
  #stored: StoredClocks = new Map();
  readonly #sent: { id: string; clock: number; at: number }[] = [];
  #tellReady: () => void = () => {};
  readonly ready: Promise<void>;

  constructor(
    address: string,
    origin: string,
    private readonly guest: LoadGuest,
    private readonly stir: () => void,
  ) {
    this.#socket = new WebSocket(address, { headers: { cookie: guest.cookie, origin } });
    this.ready = new Promise((resolve, reject) => {
      this.#tellReady = resolve;
      this.#socket.on("error", reject);
    });
    this.#socket.on("open", () => this.#socket.send(writeSyncStep1(Y.encodeStateVector(this.doc))));
    this.#socket.on("message", (frame: Buffer) => this.#take(frame));
    this.doc.on("update", (update: Uint8Array, origin: unknown) => {
      if (origin !== this) this.#socket.send(writeUpdate(update));
    });
  }

  get isPlayer(): boolean {
    return this.guest.isPlayer;
  }

  get unsaved(): number {
    return this.#sent.length;
  }

  /** Marks one breath: about 130 bytes on the wire. */
  write(): void {
    const id = randomUUID();
    const at = { barIndex: writtenAt.size % 400, offset: "1/2" };
    writtenAt.set(id, performance.now());
    this.#sent.push({ id, clock: this.#clock(), at: performance.now() });
    this.doc.getMap("breaths").set(id, { id, authorId: this.guest.userId, at, deletedAt: null });
  }

  close(): void {
    this.#socket.terminate();
    this.doc.destroy();
  }

  #clock(): number {
    return Y.decodeStateVector(Y.encodeStateVector(this.doc)).get(this.doc.clientID) ?? 0;
  }

  #take(frame: Buffer): void {
    const decoder = decoding.createDecoder(frame);
    const type = decoding.readVarUint(decoder);
    if (type === messageTypes.acknowledgement) this.#takeAcknowledgement(readAcknowledgement(decoder).stored);
    if (type === messageTypes.sync) this.#takeSync(decoder);
    this.stir();
  }

  #takeAcknowledgement(stored: Uint8Array): void {
    this.#stored = noteStored(this.#stored, stored);
    const held = this.#stored.get(this.doc.clientID) ?? 0;
    const now = performance.now();
    for (let first = this.#sent[0]; first && first.clock < held; first = this.#sent[0]) {
      this.acknowledged.push(now - first.at);
      this.promised.add(first.id);
      this.#sent.shift();
    }
  }

  #takeSync(decoder: decoding.Decoder): void {
    const type = decoding.readVarUint(decoder);
    if (type === syncTypes.step1) return;
    const update = decoding.readVarUint8Array(decoder);
    const breaths = this.doc.getMap("breaths");
    const watch = (event: Y.YMapEvent<unknown>) => {
      const now = performance.now();
      for (const key of event.keysChanged) {
        this.seen.push(now - (writtenAt.get(key) ?? Number.NaN));
        this.promised.add(key);
      }
    };
    breaths.observe(watch);
    Y.applyUpdate(this.doc, update, this);
    breaths.unobserve(watch);
    if (type === syncTypes.step2) this.#tellReady();
  }
}

/** Lets the players write at random times, until all is acknowledged and seen, and compares with the log. */
export async function runLoad(load: Load): Promise<LoadResult> {
  writtenAt.clear();
  let look = () => {};
  const stays = load.rooms.map(({ pieceId, guests }) => ({
    pieceId,
    clients: guests.map(
      (guest) => new LoadClient(`${load.address}/${pieceId}`, load.origin, guest, () => look()),
    ),
  }));
  const clients = stays.flatMap((stay) => stay.clients);
  await Promise.all(clients.map(({ ready }) => ready));
  const sent = await writeForAWhile(clients, load);
  const expectedSights = sent * (clients.length / stays.length - 1);
  await untilQuiet(clients, expectedSights, (next) => {
    look = next;
  });
  const result = { sent, ...(await compareWithLog(stays)) };
  const acknowledged = clients.flatMap((client) => client.acknowledged);
  const seen = clients.flatMap((client) => client.seen);
  for (const client of clients) client.close();
  return { ...result, acknowledged, seen };
}

/** Lets the players write, has the server killed in the middle of it, and looks for everything it vouched for. */
export async function runKill(load: Load, kill: () => void): Promise<KillResult> {
  writtenAt.clear();
  const clients = load.rooms.flatMap(({ pieceId, guests }) =>
    guests.map((guest) => new LoadClient(`${load.address}/${pieceId}`, load.origin, guest, () => {})),
  );
  await Promise.all(clients.map(({ ready }) => ready));
  const timer = setTimeout(kill, load.seconds * 1000 * (0.3 + 0.6 * Math.random()));
  await writeForAWhile(clients, load);
  clearTimeout(timer);
  const promised = new Set(clients.flatMap((client) => [...client.promised]));
  for (const client of clients) client.close();
  const stored = new Set<string>();
  for (const { pieceId } of load.rooms)
    for (const key of (await documentOf(pieceId)).getMap("breaths").keys()) stored.add(key);
  return { promised: promised.size, lost: [...promised].filter((key) => !stored.has(key)).length };
}

function writeForAWhile(
  clients: readonly LoadClient[],
  { updatesPerSecond, seconds }: Load,
): Promise<number> {
  const players = clients.filter(({ isPlayer }) => isPlayer);
  return new Promise((resolve) => {
    const start = performance.now();
    let sent = 0;
    const turn = () => {
      const passed = (performance.now() - start) / 1000;
      while (sent < Math.min(passed, seconds) * updatesPerSecond) {
        players[Math.floor(Math.random() * players.length)]?.write();
        sent += 1;
      }
      if (passed < seconds) setTimeout(turn, 2);
      else resolve(sent);
    };
    turn();
  });
}

const longestWaitMs = 20_000;

/** Waits until everything is acknowledged and seen, or for so long that the rest counts as lost. */
function untilQuiet(
  clients: readonly LoadClient[],
  expectedSights: number,
  onStir: (look: () => void) => void,
): Promise<void> {
  return new Promise((resolve) => {
    const giveUp = setTimeout(resolve, longestWaitMs);
    const look = () => {
      if (clients.some(({ unsaved }) => unsaved > 0)) return;
      if (clients.reduce((sum, { seen }) => sum + seen.length, 0) < expectedSights) return;
      clearTimeout(giveUp);
      resolve();
    };
    onStir(look);
    look();
  });
}

async function compareWithLog(stays: readonly { pieceId: string; clients: readonly LoadClient[] }[]) {
  const unseen = new Set(writtenAt.keys());
  let diverged = 0;
  for (const { pieceId, clients } of stays) {
    const doc = await documentOf(pieceId);
    for (const key of doc.getMap("breaths").keys()) unseen.delete(key);
    const expected = roomAsJson(doc);
    diverged += clients.filter((client) => roomAsJson(client.doc) !== expected).length;
  }
  return { lost: unseen.size, diverged };
}

async function documentOf(pieceId: string): Promise<Y.Doc> {
  const doc = openRoomDoc();
  const log = await readRoomLog(pieceId);
  if (log?.snapshot) Y.applyUpdate(doc, log.snapshot.state);
  for (const { update } of log?.updates ?? []) Y.applyUpdate(doc, update);
  return doc;
}
