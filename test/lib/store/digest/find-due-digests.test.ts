import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import type { DueDigest } from "@/lib/store/digest/due-digest";
import { findDueDigests, type WaitingNews } from "@/lib/store/digest/find-due-digests";
import { type News, namesMe } from "@/lib/store/digest/news";
import { sendDigest } from "@/lib/store/digest/send-digest";
import { openStoreForFile } from "../duo";
import { bringQuietDesk, minute, type QuietDesk, type Seat } from "./quiet-desk";

openStoreForFile();
let desk: QuietDesk;
beforeEach(async () => {
  await database().user.updateMany({ data: { wantsDigest: false } });
  desk = await bringQuietDesk();
});

const hour = 60;
const find = (minutes: number, waiting?: WaitingNews) =>
  findDueDigests(minute(minutes), {
    waiting,
    onFailure: (error) => {
      throw error;
    },
  });

/** Tells everybody whose message is due, as a round does. */
async function tellAll(minutes: number): Promise<DueDigest[]> {
  const due = await find(minutes);
  for (const digest of due) expect(await sendDigest(digest, async () => {})).toBe("sent");
  return due;
}

const seats = ["pianist", "soloist", "coach", "reader"] as const;

/** Who gets what: "comment!" is one that names the person. */
function told(due: readonly DueDigest[]): Partial<Record<Seat, string[]>> {
  const found: Partial<Record<Seat, string[]>> = {};
  for (const seat of seats) {
    const digest = due.find(({ userId }) => userId === desk[seat].userId);
    const piece = digest?.pieces.find(({ pieceId }) => pieceId === desk.pieceId);
    if (piece) found[seat] = piece.news.map(sayShort);
  }
  return found;
}

function sayShort(news: News): string {
  const what =
    news.kind === "trail" ? `${news.what}${news.number === null ? "" : ` ${news.number}`}` : news.kind;
  return namesMe(news) ? `${what}!` : what;
}

type Told = Partial<Record<Seat, string[]>>;

interface Situation {
  readonly name: string;
  readonly happens: (desk: QuietDesk) => Promise<unknown>;
  /** By minute: who is told of what then. Nobody is told in between. */
  readonly tells: Readonly<Record<number, Told>>;
}

const toOthers = (what: string[]): Told => ({ soloist: what, coach: what });

const situations: readonly Situation[] = [
  {
    name: "nothing happened",
    happens: async () => {},
    tells: { 0: {}, [5 * hour]: {} },
  },
  {
    name: "a rewrite that is proposed, and one that is told; hints on the sound of an instrument can wait",
    happens: async (d) => {
      await d.note(0, "pianist", "rewrite proposed", { number: 2 });
      await d.note(1, "pianist", "rewrite told", { number: 3 });
      await d.note(2, "pianist", "hint written", { instrument: "Cor." });
    },
    tells: { 11: toOthers(["rewrite proposed 2", "rewrite told 3"]) },
  },
  {
    name: "a comment: told ten minutes later, to those who read the discussion and not to its writer",
    happens: (d) => d.comment(0, "pianist", "More time here?"),
    tells: { 1: {}, 9: {}, 10: toOthers(["comment"]) },
  },
  {
    name: "as long as it goes on, nobody is told; ten minutes after the last",
    happens: async (d) => {
      await d.comment(0, "pianist", "One.");
      await d.comment(8, "pianist", "Two.");
      await d.comment(16, "pianist", "Three.");
    },
    tells: { 17: {}, 25: {}, 26: toOthers(["comment", "comment", "comment"]) },
  },
  {
    name: "but two hours after the first at the latest",
    happens: async (d) => {
      for (let at = 0; at <= 2 * hour; at += 6) await d.comment(at, "pianist", `Bar by bar ${at}.`);
    },
    tells: { 119: {}, 120: toOthers(Array.from({ length: 21 }, () => "comment")) },
  },
  {
    name: "named: two minutes later, and with it what else there is; the others wait",
    happens: async (d) => {
      await d.comment(0, "pianist", "A thought.");
      await d.comment(4, "pianist", "@Corin, can you breathe here?");
    },
    tells: { 5: {}, 6: { soloist: ["comment", "comment!"] } },
  },
  {
    name: "an address is no name",
    happens: (d) => d.comment(0, "pianist", "Write to post@corin.test"),
    tells: { 2: {}, 10: toOthers(["comment"]) },
  },
  {
    name: "a reply, and a comment reworded so that it names somebody now",
    happens: async (d) => {
      const first = await d.comment(-30, "coach", "Softer.");
      for (const seat of ["pianist", "soloist", "coach"] as const) await d.leave(-20, seat);
      await d.comment(0, "pianist", "Yes.", { replyTo: first.id });
      await d.write(1, "coach", "comments", { ...first, text: "Softer, @Corin Vasey." });
    },
    tells: {
      3: { soloist: ["reply", "reworded!"] },
      11: { pianist: ["reworded"], soloist: ["reply", "reworded!"] },
    },
  },
  {
    name: "a comment written and deleted again is none; one brought back is",
    happens: async (d) => {
      const gone = await d.comment(0, "pianist", "Never mind.");
      await d.write(1, "pianist", "comments", { ...gone, deletedAt: minute(1).toISOString() });
      const back = await d.comment(2, "pianist", "Or do.");
      await d.write(3, "pianist", "comments", { ...back, deletedAt: minute(3).toISOString() });
      await d.write(4, "pianist", "comments", back);
    },
    tells: { 14: toOthers(["comment"]) },
  },
  {
    name: "already seen: on leaving",
    happens: async (d) => {
      await d.comment(0, "pianist", "More time here?");
      await d.leave(3, "soloist");
    },
    tells: { 10: { coach: ["comment"] }, [3 * hour]: { coach: ["comment"] } },
  },
  {
    name: "already seen: the comment was on the screen of somebody who has the piece open",
    happens: async (d) => {
      const { id } = await d.comment(0, "pianist", "More time here?");
      await database().commentSeen.create({
        data: { pieceId: d.pieceId, userId: d.soloist.userId, commentId: id, at: minute(2) },
      });
    },
    tells: { 10: { coach: ["comment"] } },
  },
  {
    name: "already seen: who writes something themselves has the piece open",
    happens: async (d) => {
      await d.comment(0, "pianist", "More time here?");
      await d.propose(1, "pianist", 9, 12);
      await d.comment(2, "soloist", "Yes.");
      await d.comment(4, "pianist", "Good.");
    },
    tells: {
      14: {
        pianist: undefined,
        soloist: ["comment"],
        coach: ["comment", "cut proposed 1", "comment", "comment"],
      },
    },
  },
  {
    name: "a cut proposed: not to the reader",
    happens: (d) => d.propose(0, "soloist", 9, 12),
    tells: { 9: {}, 10: { pianist: ["cut proposed 1"], coach: ["cut proposed 1"] } },
  },
  {
    name: "an edition is frozen: to the reader as well",
    happens: async (d) => {
      await d.comment(0, "pianist", "There we are.");
      await d.note(1, "soloist", "edition frozen", { number: 4, hash: "h" });
    },
    tells: {
      11: {
        pianist: ["edition frozen 4"],
        coach: ["comment", "edition frozen 4"],
        reader: ["edition frozen 4"],
      },
    },
  },
  {
    name: "pencil work",
    happens: async (d) => {
      const at = { barIndex: 3, offset: "1/2" };
      await d.write(0, "soloist", "breaths", { id: "b1", authorId: d.soloist.userId, at, deletedAt: null });
      const cut = {
        ...{ id: "v1", cutId: "c1", authorId: d.soloist.userId, createdAt: minute(1).toISOString() },
        ...{
          from: { barIndex: 3, offset: "0" },
          to: { barIndex: 6, offset: "0" },
          over: [],
          isRubbedOut: false,
        },
      };
      await d.write(1, "soloist", "pencilledCuts", cut);
      await d.write(2, "soloist", "pencilledCuts", { ...cut, id: "v2", over: ["v1"], isRubbedOut: true });
    },
    tells: { 12: { pianist: ["breath", "pencilled-cut"], coach: ["breath", "pencilled-cut"] } },
  },
  {
    name: "turned off",
    happens: async (d) => {
      await database().user.update({ where: { id: d.soloist.userId }, data: { wantsDigest: false } });
      await d.comment(0, "pianist", "@Corin?");
    },
    tells: { 2: {}, 10: { coach: ["comment"] } },
  },
  {
    name: "no longer in the piece",
    happens: async (d) => {
      await d.comment(0, "pianist", "@Corin?");
      const where = { pieceId: d.pieceId, userId: d.soloist.userId };
      await database().member.updateMany({ where, data: { removedAt: minute(1) } });
    },
    tells: { 2: {}, 10: { coach: ["comment"] } },
  },
  {
    name: "joined afterwards: what was there before is no news",
    happens: async (d) => {
      await d.comment(0, "pianist", "Before.");
      await d.propose(1, "pianist", 9, 12);
      const where = { pieceId: d.pieceId, userId: d.soloist.userId };
      await database().member.updateMany({ where, data: { joinedAt: minute(5) } });
      await d.comment(6, "pianist", "After.");
    },
    tells: { 16: { soloist: ["comment"], coach: ["comment", "cut proposed 1", "comment"] } },
  },
  {
    name: "older than a week is no news",
    happens: (d) => d.comment(0, "pianist", "Long ago."),
    tells: { [7 * 24 * hour - 1]: toOthers(["comment"]), [7 * 24 * hour]: {} },
  },
  {
    name: "what only its makers care for",
    happens: async (d) => {
      await d.note(0, "pianist", "invitation made", { role: "coach" });
      await d.note(1, "pianist", "approval withdrawn", {});
    },
    tells: { 30: {} },
  },
];

describe.each(situations)("$name", ({ happens, tells }) => {
  test("is told so", async () => {
    await happens(desk);
    const waiting: WaitingNews = new Map();
    for (const [minutes, expected] of Object.entries(tells)) {
      expect(told(await find(Number(minutes))), `minute ${minutes}`).toEqual(expected);
      expect(told(await find(Number(minutes), waiting)), `minute ${minutes}, remembering`).toEqual(expected);
    }
  });
});

describe("after a message", () => {
  test("what was told is not told again; the next one waits four hours", async () => {
    await desk.comment(0, "pianist", "One.");
    expect(told(await tellAll(10))).toEqual(toOthers(["comment"]));
    expect(await find(11)).toEqual([]);
    await desk.comment(20, "pianist", "Two.");
    expect(await find(30)).toEqual([]);
    expect(await find(4 * hour + 8)).toEqual([]);
    // The marks say up to when was looked at, which is a minute before the message.
    expect(told(await tellAll(4 * hour + 9))).toEqual(toOthers(["comment"]));
    expect(await find(20 * hour)).toEqual([]);
  });

  test("half an hour when named", async () => {
    await desk.comment(0, "pianist", "One.");
    await tellAll(10);
    await desk.comment(12, "pianist", "@Corin Vasey?");
    expect(await find(38)).toEqual([]);
    expect(told(await find(39))).toEqual({ soloist: ["comment!"] });
  });

  test("an entry of the trail that becomes visible late is told in the next", async () => {
    await desk.comment(0, "pianist", "One.");
    await desk.note(9.5, "pianist", "limit set", { limitSeconds: 60 });
    await desk.comment(-1, "pianist", "@Corin!");
    expect(told(await tellAll(9.9))).toEqual({ soloist: ["comment!", "comment"] });
    await desk.note(9.2, "pianist", "tempi set", {});
    expect(told(await find(5 * hour)).soloist).toEqual(["tempi set", "limit set"]);
  });
});

test("several pieces of one person are one message; their pause is one", async () => {
  const other = await bringQuietDesk("Nocturne");
  const { pieceId } = other;
  await database().member.create({
    data: { pieceId, userId: desk.soloist.userId, role: "coach", joinedAt: minute(-100) },
  });
  await desk.comment(0, "pianist", "Here.");
  await other.comment(5, "pianist", "There.");
  const due = (await tellAll(10)).filter(({ userId }) => userId === desk.soloist.userId);
  expect(due).toHaveLength(1);
  expect(due[0]?.pieces.map(({ title, news }) => [title, news.length])).toEqual([
    ["Concertino", 1],
    ["Nocturne", 1],
  ]);
  await other.comment(30, "pianist", "Again.");
  expect((await find(60)).map(({ userId }) => userId)).not.toContain(desk.soloist.userId);
});

test("says where, in printed bar numbers, and who", async () => {
  await desk.comment(0, "pianist", "More time here?");
  const piece = (await find(10)).find(({ userId }) => userId === desk.soloist.userId)?.pieces[0];
  expect(piece?.barLabels.slice(0, 3)).toEqual(["1", "2", "3"]);
  expect(piece?.people.get(desk.pianist.userId)).toBe("Ilse Brandow");
});

test("a piece that cannot be read keeps nobody else from their message", async () => {
  const broken = await bringQuietDesk("Broken");
  await broken.comment(0, "pianist", "Here.");
  await database().$executeRaw`
    INSERT INTO "RoomUpdate" ("pieceId", "sequence", "epoch", "update", "userId", "createdAt")
    VALUES (${broken.pieceId}, 2, 1, '\\x07'::bytea, ${broken.pianist.userId}, ${minute(1)})`;
  await database().piece.update({ where: { id: broken.pieceId }, data: { roomSequence: 2 } });
  await desk.comment(0, "pianist", "There.");
  const failed: unknown[] = [];
  const due = await findDueDigests(minute(20), { onFailure: (_error, about) => failed.push(about) });
  expect(failed).toEqual([{ pieceId: broken.pieceId }]);
  expect(told(due)).toEqual(toOthers(["comment"]));
  // A room in which everybody has seen all is not even opened.
  for (const seat of ["pianist", "soloist", "coach"] as const) await broken.leave(30, seat);
  await findDueDigests(minute(40), { onFailure: (_error, about) => failed.push(about) });
  expect(failed).toHaveLength(1);
});
