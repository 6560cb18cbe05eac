import { randomUUID } from "node:crypto";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { database } from "@/lib/store/database";
import { appendRoomUpdates } from "@/lib/store/room/append-room-updates";
import { readWholeRoomLog } from "@/lib/store/room/read-room-log";
import { type SnapshotStep, snapshotSteps, takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { loadRoom } from "@/realtime/persist";

/** How a snapshot is ended at a step. */
export const crashes = ["thrown", "connection dropped", "process killed"] as const;

export type Crash = (typeof crashes)[number];

export interface Race {
  readonly step: SnapshotStep;
  readonly crash: Crash;
}

/** Every step with every crash. When all is committed, no connection is held that could be dropped. */
export const allRaces: readonly Race[] = crashes.flatMap((crash) =>
  snapshotSteps
    .filter((step) => crash !== "connection dropped" || step !== "committed")
    .map((step) => ({ step, crash })),
);

/** Takes a snapshot in a process of its own, which kills itself at a step: false when it did not get so far. */
export type KilledTaker = (pieceId: string, step: SnapshotStep) => Promise<boolean>;

export interface RaceOutcome {
  /** Entries that were appended while the snapshots ran, and acknowledged. */
  readonly appended: number;
  /** Those of them that the room does not have when it is loaded. */
  readonly lost: number;
  /** What else is not as it should be, in words. */
  readonly faults: readonly string[];
}

export interface RacedRoom {
  readonly pieceId: string;
  readonly userId: string;
}

/**
 * Lets snapshots race against appends to a room, one of them with a crash, and looks at what is left: the room as
 * it loads, the room as its rows make it, and the snapshot against the rows that it stands for.
 */
export async function raceSnapshots(
  room: RacedRoom,
  race: Race,
  takeKilled: KilledTaker,
): Promise<RaceOutcome> {
  const writer = new Appender(room);
  const writing = writer.write();
  await writer.untilWritten(2);
  // Another node that wants a snapshot at the same time: it gets its turn, or is told that one is being taken.
  const other = takeRoomSnapshot(room.pieceId).then(
    () => [],
    (error: unknown) => [`the other: ${String(error)}`],
  );
  while (!(await crash(room.pieceId, race, takeKilled)));
  const problems = await other;
  await writer.untilWritten(2);
  writer.stop();
  await writing;
  return look(room.pieceId, writer.acknowledged, problems);
}

/** @returns false when the crash did not come about, because the other had the room. */
async function crash(pieceId: string, { step, crash }: Race, takeKilled: KilledTaker): Promise<boolean> {
  if (crash === "process killed") return takeKilled(pieceId, step);
  let hasCrashed = false;
  const taken = takeRoomSnapshot(pieceId, {
    onStep: async (done) => {
      if (done !== step) return;
      hasCrashed = true;
      if (crash === "thrown") throw new Error("a staged crash");
      await dropConnection(pieceId);
    },
  });
  const outcome = await taken.catch(() => null);
  if (hasCrashed && outcome !== null) throw new Error(`a snapshot survived its crash at ${step}`);
  return hasCrashed;
}

/** Ends the server's side of the connection that holds the room's lock. @throws Error if there is none. */
async function dropConnection(pieceId: string): Promise<void> {
  const dropped = await database().$queryRaw<unknown[]>`
    SELECT pg_terminate_backend(pid, 5000) FROM pg_locks
    WHERE locktype = 'advisory' AND granted AND objsubid = 2
      AND objid::bigint = (hashtext(${pieceId})::bigint & 4294967295)`;
  if (dropped.length !== 1) throw new Error(`${dropped.length} connections hold the room`);
}

/** Appends as a room server does, one entry after another. */
class Appender {
  /** Keys of the records that are in the log for certain. */
  readonly acknowledged: string[] = [];
  readonly #doc = openRoomDoc();
  #isStopped = false;
  #watch: () => void = () => {};

  constructor(private readonly room: RacedRoom) {}

  async write(): Promise<void> {
    const { pieceId, userId } = this.room;
    const head = await database().piece.findUniqueOrThrow({ where: { id: pieceId } });
    for (let after = head.roomSequence; !this.#isStopped; after += 1) {
      const { key, update } = this.#next();
      const asked = { viewer: { userId }, pieceId, epoch: head.roomEpoch, after, update };
      const [answer] = await appendRoomUpdates([asked]);
      if (!answer?.ok) throw new Error(`not appended: ${answer?.problem.kind}`);
      this.acknowledged.push(key);
      this.#watch();
    }
  }

  /** Waits for so many more entries. */
  untilWritten(more: number): Promise<void> {
    const enough = this.acknowledged.length + more;
    return new Promise((resolve) => {
      this.#watch = () => this.acknowledged.length >= enough && resolve();
    });
  }

  stop(): void {
    this.#isStopped = true;
  }

  #next(): { key: string; update: Uint8Array } {
    const key = randomUUID();
    const before = Y.encodeStateVector(this.#doc);
    const at = { barIndex: this.acknowledged.length, offset: "0" };
    this.#doc.getMap("breaths").set(key, { id: key, authorId: this.room.userId, at, deletedAt: null });
    return { key, update: Y.encodeStateAsUpdate(this.#doc, before) };
  }
}

/** What a race left behind. */
export async function look(
  pieceId: string,
  acknowledged: readonly string[],
  problems: readonly string[] = [],
): Promise<RaceOutcome> {
  const faults = [...problems];
  const loaded = await loadRoom(pieceId, ({ what, detail }) => faults.push(`${what}: ${detail}`));
  const log = await readWholeRoomLog(pieceId);
  if (!loaded || !log) throw new RangeError(`no piece ${pieceId}`);
  const rows = log.updates.map(({ update }) => update);
  if (roomAsJson(loaded.doc) !== roomAsJson(replay(rows))) faults.push("the room is not what its rows make");
  const snapshot = await database().roomSnapshot.findUnique({
    where: { pieceId_epoch: { pieceId, epoch: log.epoch } },
  });
  if (
    snapshot &&
    !areEqual(replay([snapshot.state]), replay(rows.slice(0, snapshot.sequence - log.epochStart)))
  )
    faults.push("the snapshot is not what its rows make");
  const kept = loaded.doc.getMap("breaths");
  const lost = acknowledged.filter((key) => !kept.has(key)).length;
  // A killed holder's lock goes with its connection, which the server may notice a moment later.
  await takeFreely(pieceId);
  return { appended: acknowledged.length, lost, faults };
}

async function takeFreely(pieceId: string): Promise<void> {
  while ((await takeRoomSnapshot(pieceId)).kind === "busy")
    await new Promise((resolve) => setImmediate(resolve));
}

function replay(updates: readonly Uint8Array[]): Y.Doc {
  const doc = openRoomDoc();
  for (const update of updates) Y.applyUpdate(doc, update);
  return doc;
}

/** Equal in what stands and in how much was ever written. */
function areEqual(one: Y.Doc, other: Y.Doc): boolean {
  const clocks = (doc: Y.Doc) => JSON.stringify([...Y.decodeStateVector(Y.encodeStateVector(doc))].sort());
  return roomAsJson(one) === roomAsJson(other) && clocks(one) === clocks(other);
}
