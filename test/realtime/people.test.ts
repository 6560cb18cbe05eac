import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { Bus, type BusOptions } from "@/realtime/bus";
import type { BusMessage } from "@/realtime/bus-message";
import { Gather } from "@/realtime/gather";
import { Outbox } from "@/realtime/outbox";
import type { RealtimeLimits } from "@/realtime/realtime-limits";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";
import { openRelay, type Relay } from "@/test/realtime/relay";
import { Visitor } from "@/test/realtime/visitor";

const anHour = 3_600_000;
/** Nothing is repeated and nothing expires while a test runs: what arrives was told at once. */
const toldOnce: Partial<RealtimeLimits> = { peopleRepeatMs: anHour, peopleExpireMs: anHour };

let house: Awaited<ReturnType<typeof openHouse>>;
let relay: Relay;
let one: RunningNode;
let two: RunningNode;
let pianist: Guest;
let soloist: Guest;
let coach: Guest;
let pieceId: string;
const visitors: Visitor[] = [];

beforeAll(async () => {
  house = await openHouse();
  relay = await openRelay(house.databaseUrl);
  one = await house.startNode(toldOnce);
  two = await house.startNode(toldOnce);
  pianist = await bringGuest("Nerys Quill");
  soloist = await bringGuest("Matthis Orban");
  coach = await bringGuest("Dagny Thorsell");
});

beforeEach(async () => {
  pieceId = await bringPiece({ pianist, soloist, coach });
});

afterEach(() => {
  for (const visitor of visitors.splice(0)) visitor.leave();
});

afterAll(async () => {
  await house.close();
  await relay.close();
});

async function enter(guest: Guest, at: RunningNode, doc = openRoomDoc()): Promise<Visitor> {
  const visitor = new Visitor(at, pieceId, guest, doc);
  visitors.push(visitor);
  await visitor.until(() => visitor.provider.synced);
  return visitor;
}

interface Shown {
  readonly member?: { readonly name: string; readonly role: string };
  readonly view?: { readonly barIndex: number | null; readonly editing: string | null };
}

/** How `by` sees `other`. */
function seen(by: Visitor, other: Visitor): Shown | undefined {
  return by.provider.awareness.getStates().get(other.doc.clientID) as Shown | undefined;
}

const look = (visitor: Visitor, barIndex: number, editing: string | null = null) =>
  visitor.provider.awareness.setLocalState({ view: { barIndex, editing } });

describe("people on two nodes", () => {
  test("see each other, where they look and what they write in, until they leave", async () => {
    const [nerys, matthis] = [await enter(pianist, one), await enter(soloist, two)];
    look(nerys, 41, "a-comment");
    await matthis.until(() => seen(matthis, nerys)?.view?.barIndex === 41);
    expect(seen(matthis, nerys)).toEqual({
      member: { userId: pianist.userId, name: "Nerys Quill", role: "pianist" },
      view: { barIndex: 41, editing: "a-comment" },
    });
    look(matthis, 7);
    await nerys.until(() => seen(nerys, matthis)?.view?.barIndex === 7);
    nerys.leave();
    await matthis.until(() => seen(matthis, nerys) === undefined);
  });

  test("whoever comes later is told of those who are there and do not move", async () => {
    const nerys = await enter(pianist, one);
    const dagny = await enter(coach, one);
    look(nerys, 12);
    await dagny.until(() => seen(dagny, nerys)?.view?.barIndex === 12);
    const matthis = await enter(soloist, two);
    await matthis.until(() => seen(matthis, nerys)?.view?.barIndex === 12);
    await matthis.until(() => seen(matthis, dagny)?.member?.name === "Dagny Thorsell");
    await nerys.until(() => seen(nerys, matthis)?.member?.name === "Matthis Orban");
  });

  test("are told the last of many moves", async () => {
    const [nerys, matthis] = [await enter(pianist, one), await enter(soloist, two)];
    for (let barIndex = 0; barIndex <= 100; barIndex += 1) look(nerys, barIndex);
    await matthis.until(() => seen(matthis, nerys)?.view?.barIndex === 100);
  });

  test("a new role is seen on the other node", async () => {
    const [nerys, dagny] = [await enter(pianist, one), await enter(coach, two)];
    await nerys.until(() => seen(nerys, dagny)?.member?.role === "coach");
    await database().$transaction(async (tx) => {
      await tx.member.updateMany({ where: { pieceId, userId: coach.userId }, data: { role: "reader" } });
      await notify(tx, "piece_changed", { pieceId, what: "members" });
    });
    await nerys.until(() => seen(nerys, dagny)?.member?.role === "reader");
  });

  test("a page that goes over to the other node is not lost when the first lets it go", async () => {
    const matthis = await enter(soloist, two);
    const before = await enter(pianist, one);
    await matthis.until(() => seen(matthis, before) !== undefined);
    const after = await enter(pianist, two, before.doc);
    look(after, 3);
    await matthis.until(() => seen(matthis, after)?.view?.barIndex === 3);
    const dagny = await enter(coach, one);
    before.leave();
    await dagny.until(() => seen(dagny, after)?.view?.barIndex === 3);
    expect(seen(matthis, after)?.view?.barIndex).toBe(3);
  });

  test("nobody writes under the number of a page that is open on another node", async () => {
    const [nerys, matthis] = [await enter(pianist, one), await enter(soloist, two)];
    await matthis.until(() => seen(matthis, nerys) !== undefined);
    const doc = openRoomDoc();
    doc.clientID = nerys.doc.clientID;
    const forged = await enter(soloist, two, doc);
    put(doc, "comments", comment(soloist.userId, "Under your number"));
    await forged.until(() => forged.refusals.length > 0);
    expect(forged.refusals[0]?.kind).toBe("not-your-page");
    expect(seen(matthis, nerys)?.member?.name).toBe("Nerys Quill");
  });
});

describe("a node that falls silent", () => {
  const watchful: Partial<RealtimeLimits> = { peopleRepeatMs: 40, peopleExpireMs: 400 };

  test("is believed no longer: its people are gone, and are there again when it speaks", async () => {
    const near = await house.startNode(watchful);
    const far = await house.startNode({ ...watchful, peopleExpireMs: anHour }, 0, { databaseUrl: relay.url });
    const [nerys, matthis] = [await enter(pianist, near), await enter(soloist, far)];
    await nerys.until(() => seen(nerys, matthis) !== undefined);
    relay.cut();
    await nerys.until(() => seen(nerys, matthis) === undefined);
    relay.mend();
    await nerys.until(() => seen(nerys, matthis) !== undefined);
  });

  test("keeps people who are still there, however long they do not move", async () => {
    const patient = { ...watchful, peopleExpireMs: 2_000 };
    const [near, far] = [await house.startNode(patient), await house.startNode(patient)];
    const [nerys, matthis] = [await enter(pianist, near), await enter(soloist, far)];
    await nerys.until(() => seen(nerys, matthis) !== undefined);
    let isLost = false;
    await new Promise<void>((resolve) => {
      let heard = 0;
      nerys.provider.awareness.on("update", ({ removed }: { removed: number[] }) => {
        isLost ||= removed.includes(matthis.doc.clientID);
        heard += 1;
        // One at most every 100 ms: longer than what is believed.
        if (heard > 25) resolve();
      });
    });
    expect(isLost).toBe(false);
  });

  test("does not keep somebody whose leaving was not heard", async () => {
    const isOfLeaving = (message: BusMessage) =>
      message.channel === "rooms_people" && message.news.some(({ is }) => is === "gone");
    const openBus = (options: BusOptions) =>
      new Bus({
        ...options,
        onMessage: (message) => {
          if (!isOfLeaving(message)) options.onMessage(message);
        },
      });
    const near = await house.startNode(watchful, 0, { openBus });
    const far = await house.startNode(watchful);
    const nerys = await enter(pianist, near);
    const [matthis, dagny] = [await enter(soloist, far), await enter(coach, far)];
    await nerys.until(() => seen(nerys, matthis) !== undefined && seen(nerys, dagny) !== undefined);
    matthis.leave();
    await nerys.until(() => seen(nerys, matthis) === undefined);
    expect(seen(nerys, dagny)).toBeDefined();
  });
});

describe("gathering", () => {
  test("the first goes at once, the others together and each once, the last is not lost", () => {
    vi.useFakeTimers();
    try {
      const handed: number[][] = [];
      const gather = new Gather<number>(100, (things) => handed.push([...things]));
      for (const thing of [1, 2, 3, 2]) gather.add(thing);
      expect(handed).toEqual([[1]]);
      vi.advanceTimersByTime(100);
      expect(handed).toEqual([[1], [2, 3]]);
      gather.add(4);
      vi.advanceTimersByTime(99);
      expect(handed).toHaveLength(2);
      vi.advanceTimersByTime(1);
      expect(handed).toEqual([[1], [2, 3], [4]]);
      vi.advanceTimersByTime(1_000);
      gather.add(5);
      expect(handed.at(-1)).toEqual([5]);
    } finally {
      vi.useRealTimers();
    }
  });

  test("what is told to other nodes is the last of each person, many rooms to a payload", () => {
    const outbox = new Outbox("node");
    const member = { userId: "u", name: "Nerys Quill", role: "pianist" } as const;
    for (let room = 0; room < 20; room += 1) {
      const piece = `piece-${room}`;
      outbox.putPeople({ is: "open", piece, asks: true });
      outbox.putPeople({ is: "open", piece, asks: false });
      for (const barIndex of [1, 2])
        outbox.putPeople({ is: "here", piece, client: 9, member, view: { barIndex, editing: null } });
    }
    const notes = outbox.empty();
    expect(notes).toHaveLength(1);
    const { news } = JSON.parse(notes[0]?.payload ?? "");
    expect(news).toHaveLength(40);
    expect(news.slice(0, 2)).toEqual([
      { is: "open", piece: "piece-0", asks: true },
      { is: "here", piece: "piece-0", client: 9, member, view: { barIndex: 2, editing: null } },
    ]);
  });
});
