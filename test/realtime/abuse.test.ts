import fc from "fast-check";
import * as encoding from "lib0/encoding";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { writePresence, writeSyncStep1, writeSyncStep2, writeUpdate } from "@/realtime/protocol";
import {
  bringGuest,
  bringPiece,
  type Guest,
  openHouse,
  publicUrl,
  type RunningNode,
} from "@/test/realtime/house";
import { comment, put, textsIn } from "@/test/realtime/records";
import { RawVisitor, Visitor } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let reader: Guest;
let pieceId: string;
const raws: RawVisitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  node = await house.startNode();
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
  reader = await bringGuest("Page Turner");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist, reader });
});

afterEach(() => {
  for (const raw of raws.splice(0)) raw.socket.terminate();
});

afterAll(() => house.close());

async function enterRaw(guest: Guest, at = node): Promise<RawVisitor> {
  const raw = new RawVisitor(`${at.url}/${pieceId}`, { cookie: guest.cookie, origin: publicUrl });
  raws.push(raw);
  await raw.until(() => raw.frames.length > 0);
  return raw;
}

/** Sends frames and waits until the server has read them all, or has closed. */
async function sendAll(raw: RawVisitor, frames: readonly (Uint8Array | string)[]): Promise<void> {
  const answered = new Promise<void>((resolve) => {
    raw.socket.once("pong", () => resolve());
    raw.socket.once("close", () => resolve());
  });
  for (const frame of frames) raw.socket.send(frame);
  raw.socket.ping();
  await answered;
}

/** The room still works: a member writes, it is stored, and it is all that the log holds. */
async function expectUnharmed(): Promise<void> {
  const visitor = new Visitor(node, pieceId, soloist);
  await visitor.until(() => visitor.provider.synced);
  put(visitor.doc, "comments", comment(soloist.userId, "Still here"));
  await visitor.until(() => visitor.unsaved === 0);
  visitor.leave();
  const log = await readRoomLog(pieceId);
  expect(log?.updates.map(({ userId }) => userId)).toEqual([soloist.userId]);
  const replayed = openRoomDoc();
  for (const { update } of log?.updates ?? []) Y.applyUpdate(replayed, update);
  expect(textsIn(replayed)).toEqual(["Still here"]);
}

const bytes = fc.uint8Array({ maxLength: 200 });
const wrapped = fc
  .tuple(fc.constantFrom(writeUpdate, writeSyncStep2, writeSyncStep1, writePresence), bytes)
  .map(([write, body]) => write(body));

describe("bytes that mean nothing", () => {
  test("never stop the server and never reach the log", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.oneof(bytes, wrapped), { minLength: 1, maxLength: 20 }),
        async (frames) => {
          await sendAll(await enterRaw(pianist), frames);
        },
      ),
      { numRuns: 60 },
    );
    await expectUnharmed();
  });

  test("a true update with some of its bytes changed, from someone who may not write, neither", async () => {
    const doc = openRoomDoc();
    put(doc, "comments", comment(reader.userId, "Bent on the way"));
    const update = Y.encodeStateAsUpdate(doc);
    const change = fc.record({ at: fc.nat(update.length - 1), to: fc.nat(255) });
    const bent = fc.array(change, { minLength: 1, maxLength: 4 }).map((changes) => {
      const copy = update.slice();
      for (const { at, to } of changes) copy[at] = to;
      return copy;
    });
    await fc.assert(
      fc.asyncProperty(bent, fc.constantFrom(writeUpdate, writeSyncStep2), async (body, write) => {
        await sendAll(await enterRaw(reader), [write(body)]);
      }),
      { numRuns: 60 },
    );
    await expectUnharmed();
  });
});

describe("too much", () => {
  test.each([
    ["a frame larger than the limit", () => [new Uint8Array(2 * 1024 * 1024)], 1009],
    ["a text frame", () => ["hello"], 4400],
    ["an unknown type", () => [new Uint8Array([99, 1, 2])], 4400],
    ["a message with something after its end", () => [new Uint8Array([3, 0])], 4400],
    ["a flood of messages", () => Array.from({ length: 400 }, () => new Uint8Array([3])), 4529],
    ["a large presence", () => [writePresence(new Uint8Array(20_000))], 4400],
    ["an update larger than the limit", () => [writeUpdate(new Uint8Array(300_000))], 4422],
  ] as [string, () => (Uint8Array | string)[], number][])(
    "%s ends the connection",
    async (_what, frames, code) => {
      const raw = await enterRaw(pianist);
      for (const frame of frames()) raw.socket.send(frame);
      await raw.until(() => raw.closedWith !== null);
      expect(raw.closedWith).toBe(code);
      await expectUnharmed();
    },
  );

  test("someone who asks and does not receive is cut off, and the others go on", async () => {
    const narrow = await house.startNode({ waitingBytes: 64 * 1024, messageBurst: 10_000 });
    const writer = new Visitor(narrow, pieceId, pianist);
    await writer.until(() => writer.provider.synced);
    for (let index = 0; index < 50; index += 1)
      put(writer.doc, "comments", comment(pianist.userId, "o".repeat(4_000)));
    await writer.until(() => writer.unsaved === 0);
    const lame = await enterRaw(soloist, narrow);
    lame.socket.pause();
    // Each answer is the whole room, 200 kB: more than the operating system holds for a paused socket.
    const everything = writeSyncStep1(Y.encodeStateVector(openRoomDoc()));
    for (let index = 0; index < 400; index += 1) lame.socket.send(everything);
    await narrow.untilLogged(({ what, detail }) => what === "closed" && detail === "tooSlow");
    put(writer.doc, "comments", comment(pianist.userId, "Going on"));
    await writer.until(() => writer.unsaved === 0);
    expect(writer.closes).toEqual([]);
    writer.leave();
  });

  test("a client that repeats what others say does not speak for them", async () => {
    const [ines, tobias] = [new Visitor(node, pieceId, pianist), new Visitor(node, pieceId, soloist)];
    await Promise.all([ines.until(() => ines.provider.synced), tobias.until(() => tobias.provider.synced)]);
    ines.provider.awareness.setLocalState({ view: { barIndex: 7, editing: null } });
    const seen = () =>
      tobias.provider.awareness.getStates().get(ines.doc.clientID) as
        | { view?: { barIndex: number } }
        | undefined;
    await tobias.until(() => seen()?.view?.barIndex === 7);
    // As a tampered client would: another's client id with a higher clock, gone.
    const raw = await enterRaw(reader);
    await sendAll(raw, [presenceOf(ines.doc.clientID, 9_000_000_000_000_000, "null")]);
    await sendAll(raw, [presenceOf(12345, 1, JSON.stringify({ view: { barIndex: 1, editing: null } }))]);
    await tobias.until(() => tobias.provider.awareness.getStates().has(12345));
    expect(seen()?.view?.barIndex).toBe(7);
    ines.leave();
    tobias.leave();
  });
});

function presenceOf(clientId: number, clock: number, state: string): Uint8Array {
  return writePresence(
    encoding.encode((encoder) => {
      encoding.writeVarUint(encoder, 1);
      encoding.writeVarUint(encoder, clientId);
      encoding.writeVarUint(encoder, clock);
      encoding.writeVarString(encoder, state);
    }),
  );
}
