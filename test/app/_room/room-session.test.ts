import "fake-indexeddb/auto";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import * as Y from "yjs";
import { openLocalCopy } from "@/app/_room/local-copy";
import { type RoomActions, roomActions } from "@/app/_room/room-actions";
import { RoomSession, type RoomSessionOptions } from "@/app/_room/room-session";
import type { RoomView } from "@/app/_room/room-view";
import { type TicketAnswer, ticketSocket } from "@/app/_room/ticket-socket";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readRecords } from "@/lib/room/read-records";
import type { RoomRole } from "@/lib/room/room-member";
import { quarters } from "@/lib/score/quarters";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { issueRoomTicket } from "@/lib/store/room/room-ticket";
import { bringGuest, bringPiece, type Guest, openHouse, type RunningNode } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";
import { socketOf } from "@/test/realtime/visitor";

let house: Awaited<ReturnType<typeof openHouse>>;
let node: RunningNode;
let pianist: Guest;
let soloist: Guest;
let pieceId: string;
const stays: Stay[] = [];
const at = { barIndex: 11, offset: quarters(1, 2) };
const about = { kind: "span" as const, from: at, to: { barIndex: 12, offset: quarters(0) } };

beforeAll(async () => {
  house = await openHouse();
  node = await house.startNode();
});

beforeEach(async () => {
  pianist = await bringGuest("Ines Varga");
  soloist = await bringGuest("Tobias Lenk");
  pieceId = await bringPiece({ pianist, soloist });
});

afterEach(async () => {
  await Promise.all(stays.splice(0).map(({ session }) => session.close()));
});

afterAll(() => house.close());

interface Stay {
  readonly session: RoomSession;
  readonly act: RoomActions;
  readonly heard: string[];
  until(isSo: (view: RoomView) => boolean): Promise<RoomView>;
}

/** Opens the piece on a page, as the hook does. */
function open(
  guest: Guest,
  role: RoomRole = guest === pianist ? "pianist" : "soloist",
  options: Partial<RoomSessionOptions> = {},
): Stay {
  const heard: string[] = [];
  const lookers = new Set<() => void>();
  const session = new RoomSession({
    pieceId,
    me: { userId: guest.userId, name: guest.name, role },
    address: node.url,
    onPieceChanged: (what) => {
      heard.push(what);
      for (const look of lookers) look();
    },
    WebSocketPolyfill: socketOf(guest.cookie),
    ...options,
  });
  const until = (isSo: (view: RoomView) => boolean) =>
    new Promise<RoomView>((resolve) => {
      const look = () => {
        if (!isSo(session.view())) return;
        stop();
        lookers.delete(look);
        resolve(session.view());
      };
      const stop = session.subscribe(look);
      lookers.add(look);
      look();
    });
  const stay = { session, act: roomActions(session), heard, until };
  stays.push(stay);
  return stay;
}

const isLive = ({ status }: RoomView) => status === "live";
const isSaved = ({ status, unsavedCount }: RoomView) => status === "live" && unsavedCount === 0;
const texts = ({ comments }: RoomView) => comments.map(({ text }) => text).sort();

/** What a browser still has of a room. */
async function readCopy(userId: string, room: string) {
  const doc = openRoomDoc();
  const copy = await openLocalCopy(userId, room, doc);
  const kept = (await copy.readKept()).map((one) => (one.map === "comments" ? one.record.text : one.map));
  await copy.close();
  return { comments: readRecords(doc, "comments").length, kept };
}

/** Sockets that can be made to hear and say nothing more, as after sleep. */
function deafenable(Base: typeof WebSocket) {
  const sockets: InstanceType<typeof Base>[] = [];
  const listeners = new Set<() => void>();
  class Deafenable extends Base {
    isDeaf = false;
    constructor(address: string | URL) {
      super(address);
      sockets.push(this);
      this.addEventListener("message", () => {
        for (const listener of listeners) listener();
      });
    }
    override send(data: Parameters<WebSocket["send"]>[0]): void {
      if (!this.isDeaf) super.send(data);
    }
    deafen(): void {
      this.isDeaf = true;
      this.onmessage = null;
      this.onclose = null;
    }
  }
  return {
    Socket: Deafenable as unknown as typeof WebSocket,
    opened: () => sockets.length,
    deafen: () => (sockets.at(-1) as Deafenable).deafen(),
    nextMessage: () => new Promise<void>((resolve) => listeners.add(resolve)),
  };
}

async function stop(): Promise<number> {
  const port = Number(new URL(node.url).port);
  await node.stop();
  return port;
}

describe("a room on a page", () => {
  test("shows what both write, and what is saved", async () => {
    const [ines, tobias] = [open(pianist), open(soloist)];
    await Promise.all([ines.until(isLive), tobias.until(isLive)]);
    const written = ines.act.addComment({ text: " A little slower here ", about });
    expect(written.ok).toBe(true);
    tobias.act.addBreath(at);
    const seen = await tobias.until((view) => view.comments.length === 1 && isSaved(view));
    expect(seen.comments[0]).toMatchObject({ text: "A little slower here", about, authorId: pianist.userId });
    const view = await ines.until((view) => view.breaths.length === 1 && isSaved(view));
    expect(view.breaths[0]).toMatchObject({ at, authorId: soloist.userId });
  });

  test("comments are changed, deleted, brought back, resolved and opened again", async () => {
    const [ines, tobias] = [open(pianist), open(soloist)];
    await Promise.all([ines.until(isLive), tobias.until(isLive)]);
    const written = ines.act.addComment({ text: "First", about });
    if (!written.ok) throw new Error(written.sentence);
    ines.act.editComment(written.id, "Second");
    await tobias.until(({ comments }) => comments[0]?.text === "Second");
    ines.act.deleteComment(written.id);
    await tobias.until(({ comments }) => comments[0]?.deletedAt !== null);
    ines.act.restoreComment(written.id);
    await tobias.until(({ comments }) => comments[0]?.deletedAt === null);
    tobias.act.resolveComment(written.id);
    await ines.until(({ comments }) => comments[0]?.resolvedBy === soloist.userId);
    ines.act.resolveComment(written.id, false);
    await tobias.until(({ comments }) => comments[0]?.resolvedBy === null);
    expect(tobias.act.editComment(written.id, "Mine now")).toEqual({
      ok: false,
      sentence: "Only the person who wrote this comment changes it.",
    });
  });

  test("breaths are taken away and brought back", async () => {
    const tobias = open(soloist);
    await tobias.until(isLive);
    const marked = tobias.act.addBreath(at);
    if (!marked.ok) throw new Error(marked.sentence);
    tobias.act.removeBreath(marked.id);
    expect((await tobias.until((view) => view.breaths.length === 0 && isSaved(view))).breaths).toEqual([]);
    tobias.act.restoreBreath(marked.id);
    await tobias.until((view) => view.breaths.length === 1 && isSaved(view));
  });

  test("says who is here and where they look", async () => {
    const [ines, tobias] = [open(pianist), open(soloist)];
    await Promise.all([ines.until(isLive), tobias.until(isLive)]);
    tobias.act.showWhere(41);
    const { people } = await ines.until(({ people }) => people.some(({ barIndex }) => barIndex === 41));
    expect(people).toEqual([
      {
        userId: pianist.userId,
        name: "Ines Varga",
        role: "pianist",
        barIndex: null,
        editing: null,
        isMe: true,
      },
      {
        userId: soloist.userId,
        name: "Tobias Lenk",
        role: "soloist",
        barIndex: 41,
        editing: null,
        isMe: false,
      },
    ]);
  });

  test("hears what changes in the piece", async () => {
    const ines = open(pianist);
    await ines.until(isLive);
    await notify(database(), "piece_changed", { pieceId, what: "editions" });
    await ines.until(() => ines.heard.includes("editions"));
  });
});

describe("without a connection", () => {
  test("what is written outlives the page, and arrives once", async () => {
    const tobias = open(soloist);
    const first = open(pianist);
    await Promise.all([first.until(isLive), tobias.until(isLive)]);
    first.act.addComment({ text: "While there was a connection", about });
    await first.until(isSaved);
    const port = await stop();
    await first.until(({ status }) => status === "offline");
    first.act.addComment({ text: "In the practice room", about });
    tobias.act.addBreath(at);
    expect((await first.until(({ unsavedCount }) => unsavedCount === 1)).comments).toHaveLength(2);
    await first.session.close();
    const again = open(pianist);
    const reopened = await again.until(({ comments }) => comments.length === 2);
    expect(reopened.unsavedCount).toBe(1);
    node = await house.startNode({}, port);
    await again.until(isSaved);
    const seen = await tobias.until((view) => view.comments.length === 2 && isSaved(view));
    expect(texts(seen)).toEqual(["In the practice room", "While there was a connection"]);
    expect((await readRoomLog(pieceId))?.updates.length).toBe(3);
  });

  test("nothing of one person's copy is there for the next in the same browser", async () => {
    const port = await stop();
    const ines = open(pianist);
    await ines.until(({ status }) => status === "offline");
    ines.act.addComment({ text: "Mine alone", about });
    await ines.session.close();
    const tobias = open(soloist);
    expect((await tobias.until(({ status }) => status === "offline")).comments).toEqual([]);
    node = await house.startNode({}, port);
  });
});

describe("what the server refuses", () => {
  test("is taken out, kept to be copied, and does not hold up the rest", async () => {
    const ines = open(pianist);
    await ines.until(isLive);
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    ines.act.addComment({ text: "Rightly mine", about });
    const forged = comment(soloist.userId, "Not mine to say");
    put(ines.session.doc, "comments", forged);
    node = await house.startNode({}, port);
    const view = await ines.until(
      (view) => view.kept.length > 0 && texts(view).length === 1 && isSaved(view),
    );
    expect(texts(view)).toEqual(["Rightly mine"]);
    expect(view.kept).toEqual([
      {
        key: `comments/${forged.id}`,
        kind: "comment",
        text: "Not mine to say",
        sentence: "A comment can be written only in your own name.",
      },
    ]);
    await ines.session.close();
    const again = open(pianist);
    await again.until((view) => view.kept.length === 1 && isLive(view));
    again.act.dismissKept(`comments/${forged.id}`);
    await again.until(({ kept }) => kept.length === 0);
  });

  test("is kept too when the person has become a reader meanwhile", async () => {
    const tobias = open(soloist);
    await tobias.until(isLive);
    const port = await stop();
    await tobias.until(({ status }) => status === "offline");
    tobias.act.addComment({ text: "Before I knew", about });
    await database().member.updateMany({
      where: { pieceId, userId: soloist.userId },
      data: { role: "reader" },
    });
    node = await house.startNode({}, port);
    const view = await tobias.until((view) => view.kept.length > 0 && isLive(view));
    expect(view.comments).toEqual([]);
    expect(view.kept[0]).toMatchObject({ text: "Before I knew" });
    expect(tobias.act.addComment({ text: "Now I know", about }).ok).toBe(false);
  });

  test.each([80, 300])(
    "is sent in smaller pieces when it was too much at once (%i long comments)",
    async (count) => {
      const ines = open(pianist);
      await ines.until(isLive);
      const port = await stop();
      await ines.until(({ status }) => status === "offline");
      for (let index = 0; index < count; index += 1)
        ines.act.addComment({ text: `${index} ${"o".repeat(3_900)}`, about });
      node = await house.startNode({}, port);
      const view = await ines.until(
        (view) => view.comments.length === count && isSaved(view) && view.kept.length === 0,
      );
      expect(view.comments).toHaveLength(count);
      const tobias = open(soloist);
      expect(texts(await tobias.until(isLive))).toEqual(texts(view));
    },
  );
});

describe("a room that was started anew", () => {
  /** Begins a new epoch with what a backup had, and serves again. */
  async function startAnew(port: number, backup = openRoomDoc()): Promise<void> {
    const { roomSequence } = await database().piece.findUniqueOrThrow({ where: { id: pieceId } });
    const sequence = roomSequence + 1;
    const update = new Uint8Array(Y.encodeStateAsUpdate(backup));
    await database().roomUpdate.create({ data: { pieceId, epoch: 2, sequence, update, userId: null } });
    await database().piece.update({
      where: { id: pieceId },
      data: { roomEpoch: 2, roomSequence: sequence },
    });
    node = await house.startNode({}, port);
  }

  test("gives back what one wrote and it no longer has, sent or not, and nobody else's", async () => {
    const [ines, tobias] = [open(pianist), open(soloist)];
    await Promise.all([ines.until(isLive), tobias.until(isLive)]);
    ines.act.addComment({ text: "In the earlier room", about });
    tobias.act.addComment({ text: "His", about });
    await ines.until((view) => view.comments.length === 2 && isSaved(view));
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    ines.act.addComment({ text: "Not sent", about });
    ines.act.pencilCut(at, about.to);
    await startAnew(port);
    const view = await ines.until((view) => view.kept.length === 3 && isLive(view));
    expect(view.comments).toEqual([]);
    expect(view.kept.map(({ text, kind }) => text ?? kind).sort()).toEqual([
      "In the earlier room",
      "Not sent",
      "pencilled cut",
    ]);
    const file = JSON.parse(ines.act.exportKept());
    expect(file).toMatchObject({ pieceId, writtenBy: { userId: pianist.userId } });
    expect(file.writings).toHaveLength(3);

    const [first] = view.kept.filter(({ text }) => text === "Not sent");
    expect(ines.act.writeKeptAgain(first?.key ?? "").ok).toBe(true);
    expect(texts(await tobias.until((view) => view.comments.length === 1))).toEqual(["Not sent"]);
    expect(ines.act.writeAllKeptAgain().ok).toBe(true);
    await ines.until((view) => isSaved(view) && view.kept.length === 0);
    const there = await tobias.until((view) => view.comments.length === 2 && view.pencilledCuts.length === 1);
    expect(texts(there)).toEqual(["In the earlier room", "Not sent"]);
    await ines.session.close();
    expect((await open(pianist).until(isSaved)).kept).toEqual([]);
  });

  test("keeps nothing that stands in it as it was", async () => {
    const ines = open(pianist);
    await ines.until(isLive);
    const [same, other] = ["Still there", "Reworded meanwhile"].map((text) =>
      ines.act.addComment({ text, about }),
    );
    if (!same?.ok || !other?.ok) throw new Error("not written");
    ines.act.editComment(other.id, "The later words");
    await ines.until(isSaved);
    const before = new Map(readRecords(ines.session.doc, "comments").map((record) => [record.id, record]));
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    const backup = openRoomDoc();
    for (const record of before.values())
      put(backup, "comments", record.id === other.id ? { ...record, text: "The earlier words" } : record);
    await startAnew(port, backup);
    const view = await ines.until((view) => isLive(view) && view.kept.length > 0);
    expect(view.kept.map(({ text }) => text)).toEqual(["The later words"]);
    expect(ines.act.writeAllKeptAgain().ok).toBe(true);
    expect(texts(await ines.until(isSaved))).toEqual(["Still there", "The later words"]);
  });
});

describe("someone who was removed", () => {
  async function remove(): Promise<void> {
    await database().member.updateMany({
      where: { pieceId, userId: soloist.userId },
      data: { removedAt: new Date() },
    });
  }

  test("is told, and nothing of the piece stays in the browser", async () => {
    const tobias = open(soloist);
    await tobias.until(isLive);
    tobias.act.addComment({ text: "Sent", about });
    await tobias.until(isSaved);
    await remove();
    await notify(database(), "member_removed", { pieceId, userId: soloist.userId });
    const view = await tobias.until(({ status }) => status === "refused");
    expect([view.comments, view.kept]).toEqual([[], []]);
    await tobias.session.close();
    expect(await readCopy(soloist.userId, pieceId)).toEqual({ comments: 0, kept: [] });
  });

  test("while away: finds out at the door, and keeps what was not sent", async () => {
    const tobias = open(soloist, "soloist", { askDoor: async () => ({ ok: false, reason: "notAMember" }) });
    await tobias.until(isLive);
    tobias.act.addComment({ text: "Sent", about });
    await tobias.until(isSaved);
    await remove();
    const port = await stop();
    tobias.act.addComment({ text: "Never sent", about });
    node = await house.startNode({}, port);
    const view = await tobias.until((view) => view.status === "refused" && view.kept.length > 0);
    expect(view.comments).toEqual([]);
    expect(view.kept.map(({ text }) => text)).toEqual(["Never sent"]);
    expect(JSON.parse(tobias.act.exportKept()).writings).toHaveLength(1);
    await tobias.session.close();
    expect(await readCopy(soloist.userId, pieceId)).toEqual({ comments: 0, kept: ["Never sent"] });
  });
});

describe("after sleep", () => {
  test("a socket that only seems alive is replaced", async () => {
    const line = deafenable(socketOf(pianist.cookie));
    const ines = open(pianist, "pianist", { WebSocketPolyfill: line.Socket, answerMs: 300 });
    await ines.until(isLive);
    line.deafen();
    ines.act.addComment({ text: "Into the void", about });
    ines.session.wake();
    await ines.until(({ status }) => status !== "live");
    expect(texts(await ines.until(isSaved))).toEqual(["Into the void"]);
    expect(line.opened()).toBe(2);
  });

  test("a socket that answers is left alone", async () => {
    const line = deafenable(socketOf(pianist.cookie));
    const answerMs = 2_900_000;
    const ines = open(pianist, "pianist", { WebSocketPolyfill: line.Socket, answerMs });
    await ines.until(isLive);
    const heard = line.nextMessage();
    const timers = vi.spyOn(globalThis, "setTimeout");
    ines.session.wake();
    await heard;
    const [whenTooLate] = timers.mock.calls.find(([, ms]) => ms === answerMs) ?? [];
    timers.mockRestore();
    expect(whenTooLate).toBeTypeOf("function");
    whenTooLate?.();
    expect(line.opened()).toBe(1);
    expect(ines.session.view().status).toBe("live");
  });

  test("a page that opens without a network says so at once, from its copy", async () => {
    const first = open(pianist);
    await first.until(isLive);
    first.act.addComment({ text: "Kept", about });
    await first.until(isSaved);
    await first.session.close();
    const port = await stop();
    vi.stubGlobal("navigator", { onLine: false });
    const seen: string[] = [];
    const ines = open(pianist);
    ines.session.subscribe(() => seen.push(ines.session.view().status));
    expect(texts(await ines.until(({ comments }) => comments.length === 1))).toEqual(["Kept"]);
    expect(new Set(seen)).toEqual(new Set(["offline"]));
    vi.unstubAllGlobals();
    node = await house.startNode({}, port);
    await ines.until(isLive);
  });

  test("one without a socket tries at once", async () => {
    const line = deafenable(socketOf(pianist.cookie));
    const ines = open(pianist, "pianist", { WebSocketPolyfill: line.Socket });
    await ines.until(isLive);
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    node = await house.startNode({}, port);
    ines.session.wake();
    await ines.until(isLive);
  });
});

describe("rooms on another origin", () => {
  test("are entered with a ticket for each connection, and no cookie", async () => {
    let given = 0;
    const ask = async (): Promise<TicketAnswer> => {
      const issued = await issueRoomTicket(pianist, pianist.token, pieceId);
      if (!issued.ok) return { ok: false, reason: "notAMember" };
      given += 1;
      return { ok: true, ticket: { ...issued.value, address: node.url } };
    };
    const WebSocketPolyfill = ticketSocket(ask, socketOf(undefined));
    const ines = open(pianist, "pianist", { WebSocketPolyfill });
    await ines.until(isLive);
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    ines.act.addComment({ text: "Between two tickets", about });
    node = await house.startNode({}, port);
    expect(texts(await ines.until(isSaved))).toEqual(["Between two tickets"]);
    expect(given).toBeGreaterThan(1);
  });
});

describe("pencilled cuts", () => {
  const [from, to] = [at, { barIndex: 20, offset: quarters(0) }];
  const bars = (view: RoomView) =>
    view.pencilledCuts.map(({ versions }) =>
      versions.map(({ from, to }) => `${from.barIndex}-${to.barIndex}`),
    );

  test("two who move the same cut apart from each other both keep theirs; one word settles it", async () => {
    const [ines, tobias] = [open(pianist), open(soloist)];
    await Promise.all([ines.until(isLive), tobias.until(isLive)]);
    const cut = ines.act.pencilCut(from, to);
    if (!cut.ok) throw new Error(cut.sentence);
    await tobias.until(({ pencilledCuts }) => pencilledCuts.length === 1);
    const port = await stop();
    await Promise.all([ines, tobias].map(({ until }) => until(({ status }) => status === "offline")));
    expect(ines.act.movePencilledCut(cut.id, from, { barIndex: 18, offset: quarters(0) }).ok).toBe(true);
    expect(tobias.act.movePencilledCut(cut.id, from, { barIndex: 24, offset: quarters(0) }).ok).toBe(true);
    node = await house.startNode({}, port);
    const both = (view: RoomView) => isSaved(view) && view.pencilledCuts[0]?.versions.length === 2;
    const seen = await Promise.all([ines.until(both), tobias.until(both)]);
    expect(seen.map((view) => bars(view)[0]?.toSorted())).toEqual([
      ["11-18", "11-24"],
      ["11-18", "11-24"],
    ]);
    const his = seen[0].pencilledCuts[0]?.versions.find(({ authorId }) => authorId === soloist.userId);
    expect(ines.act.settlePencilledCut(cut.id, his?.id ?? "").ok).toBe(true);
    const settled = await tobias.until((view) => view.pencilledCuts[0]?.versions.length === 1);
    expect(bars(settled)).toEqual([["11-24"]]);
  });

  test("are rubbed out and brought back, and a coach does neither", async () => {
    await database().member.updateMany({
      where: { pieceId, userId: soloist.userId },
      data: { role: "coach" },
    });
    const [ines, coach] = [open(pianist), open(soloist, "coach")];
    await Promise.all([ines.until(isLive), coach.until(isLive)]);
    const cut = ines.act.pencilCut(from, to);
    if (!cut.ok) throw new Error(cut.sentence);
    expect(ines.act.rubOutPencilledCut(cut.id)).toEqual({ ok: true, id: cut.id });
    expect(bars(await ines.until((view) => view.rubbedOut.length === 1))).toEqual([]);
    ines.act.bringBackPencilledCut(cut.id);
    expect(bars(await ines.until(({ rubbedOut }) => rubbedOut.length === 0))).toEqual([["11-20"]]);
    expect(coach.act.pencilCut(from, to).ok).toBe(false);
    expect(ines.act.movePencilledCut("0192a0a0-0000-7000-8000-000000000000", from, to).ok).toBe(false);
  });
});
