import "fake-indexeddb/auto";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type RoomActions, roomActions } from "@/app/_room/room-actions";
import { RoomSession } from "@/app/_room/room-session";
import type { RoomView } from "@/app/_room/room-view";
import type { RoomRole } from "@/lib/room/room-member";
import { quarters } from "@/lib/score/quarters";
import { database } from "@/lib/store/database";
import { notify } from "@/lib/store/notify";
import { readRoomLog } from "@/lib/store/room/read-room-log";
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
function open(guest: Guest, role: RoomRole = guest === pianist ? "pianist" : "soloist"): Stay {
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
        key: forged.id,
        kind: "comment",
        text: "Not mine to say",
        sentence: "A comment can be written only in your own name.",
      },
    ]);
    await ines.session.close();
    const again = open(pianist);
    await again.until((view) => view.kept.length === 1 && isLive(view));
    again.act.dismissKept(forged.id);
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

  test("a room that was started anew keeps what was not sent out of it", async () => {
    const ines = open(pianist);
    await ines.until(isLive);
    ines.act.addComment({ text: "In the earlier room", about });
    await ines.until(isSaved);
    const port = await stop();
    await ines.until(({ status }) => status === "offline");
    ines.act.addComment({ text: "Not sent", about });
    await database().piece.update({ where: { id: pieceId }, data: { roomEpoch: 2 } });
    node = await house.startNode({}, port);
    const view = await ines.until((view) => view.kept.length > 0 && isLive(view));
    expect(view.comments).toEqual([]);
    expect(view.kept.map(({ text }) => text)).toEqual(["Not sent"]);
  });

  test("someone who was removed is told", async () => {
    const tobias = open(soloist);
    await tobias.until(isLive);
    await database().member.updateMany({
      where: { pieceId, userId: soloist.userId },
      data: { removedAt: new Date() },
    });
    await notify(database(), "member_removed", { pieceId, userId: soloist.userId });
    await tobias.until(({ status }) => status === "refused");
  });
});
