import fc from "fast-check";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { roomAsJson } from "@/lib/room/room-as-json";
import { Bus, type BusOptions } from "@/realtime/bus";
import type { BusMessage } from "@/realtime/bus-message";
import { Outbox } from "@/realtime/outbox";
import { largestPayloadBytes, packPayloads, startOfPayload } from "@/realtime/pack-payloads";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { comment, put, textsIn } from "@/test/realtime/records";
import { openRelay, type Relay } from "@/test/realtime/relay";
import { Visitor } from "@/test/realtime/visitor";

const anHour = 3_600_000;

let house: Awaited<ReturnType<typeof openHouse>>;
let relay: Relay;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  relay = await openRelay(house.databaseUrl);
  node = await house.startNode();
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(async () => {
  await house.close();
  await relay.close();
});

async function enter(guest: Guest, at: RunningNode): Promise<Visitor> {
  const visitor = new Visitor(at, pieceId, guest);
  visitors.push(visitor);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

describe("payloads", () => {
  test("hold every item once and in order, and each is one that Postgres takes", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string({ unit: "binary", maxLength: 200 }), fc.nat()), { maxLength: 400 }),
        (items) => {
          const payloads = packPayloads("node", "entries", items);
          for (const payload of payloads)
            expect(Buffer.byteLength(payload)).toBeLessThanOrEqual(largestPayloadBytes);
          expect(payloads.flatMap((payload) => JSON.parse(payload).entries)).toEqual(items);
          for (const payload of payloads) expect(payload.startsWith(startOfPayload("node"))).toBe(true);
        },
      ),
    );
  });

  test("are as few as hold them", () => {
    const rooms = Array.from({ length: 1_000 }, (_, index) => [crypto.randomUUID(), index]);
    expect(packPayloads(crypto.randomUUID(), "entries", rooms)).toHaveLength(7);
  });

  test("are not made of an item that none can hold", () => {
    expect(() => packPayloads("node", "entries", ["x".repeat(8_000)])).toThrow(RangeError);
  });

  test("tell of each room only where it ends last", () => {
    const outbox = new Outbox("node");
    for (const [piece, sequence] of [
      ["a", 1] as const,
      ["b", 4] as const,
      ["a", 3] as const,
      ["a", 2] as const,
    ])
      outbox.putEnd(piece, sequence);
    const [note] = outbox.empty();
    expect(JSON.parse(note?.payload ?? "")).toEqual({
      node: "node",
      entries: [
        ["a", 3],
        ["b", 4],
      ],
    });
    expect(outbox.isEmpty).toBe(true);
  });
});

test("a node hears the others and not itself", async () => {
  const heard: Record<string, BusMessage[]> = { one: [], two: [] };
  let stir = () => {};
  const open = (name: string) =>
    new Bus({
      name,
      databaseUrl: house.databaseUrl,
      onMessage: (message) => {
        heard[name]?.push(message);
        stir();
      },
      onReturn: () => {},
      log: () => {},
    });
  const [one, two] = [open("one"), open("two")];
  await Promise.all([one.whenListening(), two.whenListening()]);
  const until = (isSo: () => boolean) =>
    new Promise<void>((resolve) => {
      stir = () => isSo() && resolve();
      stir();
    });
  one.announce([{ pieceId: "a", sequence: 1 }]);
  await until(() => heard.two?.length === 1);
  two.announce([{ pieceId: "a", sequence: 2 }]);
  await until(() => heard.one?.length === 1);
  expect(heard).toEqual({
    one: [{ channel: "rooms_appended", node: "two", entries: [["a", 2]] }],
    two: [{ channel: "rooms_appended", node: "one", entries: [["a", 1]] }],
  });
  await Promise.all([one.close(), two.close()]);
});

/** A bus that listens and to which nothing ever comes. */
const openDeafBus = (options: BusOptions) => new Bus({ ...options, onMessage: () => {} });

describe("a node that missed what was announced", () => {
  test("finds it by the periodic check", async () => {
    const deaf = await house.startNode({ recheckMs: 50 }, 0, { openBus: openDeafBus });
    const [nerys, matthis] = [await enter(pianist, node), await enter(soloist, deaf)];
    for (let index = 0; index < 5; index += 1) {
      put(nerys.doc, "comments", comment(pianist.userId, `p${index}`));
      put(matthis.doc, "comments", comment(soloist.userId, `s${index}`));
    }
    for (const one of [nerys, matthis])
      await one.until(() => textsIn(one.doc).length === 10 && one.unsaved === 0);
    expect(roomAsJson(matthis.doc)).toBe(roomAsJson(nerys.doc));
  });

  test("catches up when its line is mended, without waiting for the check", async () => {
    const cutOff = await house.startNode({ recheckMs: anHour }, 0, { databaseUrl: relay.url });
    const [nerys, matthis] = [await enter(pianist, node), await enter(soloist, cutOff)];
    relay.cut();
    await cutOff.untilLogged(({ what }) => what === "bus-lost");
    put(nerys.doc, "comments", comment(pianist.userId, "While you could not hear"));
    await nerys.until(() => nerys.unsaved === 0);
    expect(textsIn(matthis.doc)).toEqual([]);
    relay.mend();
    await matthis.until(() => textsIn(matthis.doc).length === 1);
    expect(matthis.closes).toEqual([]);
    put(matthis.doc, "comments", comment(soloist.userId, "I hear you again"));
    await nerys.until(() => textsIn(nerys.doc).length === 2);
  });
});
