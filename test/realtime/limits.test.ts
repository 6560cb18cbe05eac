import { once } from "node:events";
import type { IncomingMessage } from "node:http";
import net from "node:net";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { createBoundedServer } from "@/realtime/bounded-server";
import { callerAddress } from "@/realtime/caller-address";
import { FailedKnocks } from "@/realtime/failed-knocks";
import {
  bringGuest,
  bringPiece,
  type Guest,
  openHouse,
  publicUrl,
  type RunningNode,
} from "@/test/realtime/house";
import { knock, Visitor } from "@/test/realtime/visitor";

const origin = publicUrl;
let house: Awaited<ReturnType<typeof openHouse>>;
let pianist: Guest;
let soloist: Guest;
let stranger: Guest;

beforeAll(async () => {
  house = await openHouse();
});

beforeEach(async () => {
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
  stranger = await bringGuest("Nobody Here");
});

afterAll(() => house.close());

async function enter(guest: Guest, node: RunningNode, pieceId: string): Promise<Visitor> {
  const visitor = new Visitor(node, pieceId, guest);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

test("one person has only so many rooms open, each as often as they like", async () => {
  const node = await house.startNode({ roomsPerPerson: 2 });
  const [first = "", second = "", third = ""] = await Promise.all(
    Array.from({ length: 3 }, () => bringPiece({ pianist, soloist })),
  );
  const { cookie } = pianist;
  const one = await enter(pianist, node, first);
  const two = await enter(pianist, node, second);
  const again = await enter(pianist, node, second);
  expect(await knock(`${node.url}/${third}`, { cookie, origin })).toBe(429);
  expect(await knock(`${node.url}/${first}`, { cookie, origin })).toBe(101);
  expect(await knock(`${node.url}/${third}`, { cookie: soloist.cookie, origin })).toBe(101);
  await node.untilLogged(({ what, detail }) => what === "turned-away" && detail === "too-many-rooms");
  one.leave();
  for (const visitor of [two, again]) visitor.leave();
});

describe("whoever knocks in vain too often", () => {
  test("is not even asked any more, and nobody else suffers", async () => {
    const limits = { failedKnockBurst: 3, failedKnocksPerSecond: 0 };
    const node = await house.startNode(limits, 0, { trustsProxy: true });
    const pieceId = await bringPiece({ pianist });
    const address = `${node.url}/${pieceId}`;
    const from = (place: string, cookie = stranger.cookie) =>
      knock(address, { cookie, origin, "x-forwarded-for": `203.0.113.9, ${place}` });
    const answers: number[] = [];
    for (let tries = 0; tries < 5; tries += 1) answers.push(await from("198.51.100.7"));
    expect(answers).toEqual([404, 404, 404, 429, 429]);
    expect(await from("198.51.100.7", pianist.cookie)).toBe(429);
    expect(await from("198.51.100.8", pianist.cookie)).toBe(101);
  });

  test("is not taken for whom they claim to be when no proxy is ours", async () => {
    const node = await house.startNode({ failedKnockBurst: 1, failedKnocksPerSecond: 0 });
    const address = `${node.url}/${await bringPiece({ pianist })}`;
    const from = (place: string) => knock(address, { origin, "x-forwarded-for": place });
    expect([await from("198.51.100.1"), await from("198.51.100.2")]).toEqual([401, 429]);
  });

  test("may knock again after a while; of very many addresses the oldest are forgotten", () => {
    let now = 0;
    const knocks = new FailedKnocks({ perSecond: 1, burst: 2, mostAddresses: 3 }, () => now);
    for (const address of ["a", "a"]) knocks.note(address);
    expect(knocks.isTooMany("a")).toBe(true);
    now = 1_000;
    expect(knocks.isTooMany("a")).toBe(false);
    for (const address of ["b", "b", "c", "d"]) knocks.note(address);
    expect([knocks.isTooMany("a"), knocks.isTooMany("b")]).toEqual([false, true]);
    for (const address of ["e", "f"]) knocks.note(address);
    expect(knocks.isTooMany("b")).toBe(false);
  });
});

describe("where somebody comes from", () => {
  const request = (remoteAddress: string | undefined, forwarded?: string) =>
    ({
      headers: forwarded === undefined ? {} : { "x-forwarded-for": forwarded },
      socket: { remoteAddress },
    }) as unknown as IncomingMessage;

  test.each([
    ["203.0.113.4", undefined, true, "203.0.113.4"],
    ["::ffff:203.0.113.4", undefined, false, "203.0.113.4"],
    ["10.0.0.1", "198.51.100.1, 198.51.100.2", true, "198.51.100.2"],
    ["10.0.0.1", "198.51.100.1", false, "10.0.0.1"],
    ["2001:db8:0:1:aaaa::1", undefined, false, "2001:db8:0:1"],
    ["2001:0db8::1:2:3", undefined, false, "2001:db8:0:0"],
    ["::1", undefined, false, "0:0:0:0"],
    ["10.0.0.1", "not an address", true, "not an address"],
    [undefined, undefined, false, "unknown"],
  ])("%s, %s, %s → %s", (remote, forwarded, trustsProxy, expected) => {
    expect(callerAddress(request(remote, forwarded), trustsProxy)).toBe(expected);
  });
});

test("a request that comes letter by letter is cut off", async () => {
  const server = createBoundedServer({ headersMs: 50, requestMs: 100 }, (_request, response) =>
    response.end("up"),
  );
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const socket = net.connect((server.address() as net.AddressInfo).port, "127.0.0.1");
  socket.write("GET /rooms/one HTTP/1.1\r\nHost: colla.test\r\nUpgr");
  let answer = "";
  for await (const piece of socket.setEncoding("latin1")) answer += piece;
  expect(answer).toMatch(/^HTTP\/1\.1 408 /);
  server.close();
});
