import { beforeEach, describe, expect, test } from "vitest";
import { maxRecords } from "@/lib/room/room-limits";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { setLimit } from "@/lib/store/pieces/set-limit";
import { listSeenComments } from "@/lib/store/room/list-seen-comments";
import { markCommentsSeen } from "@/lib/store/room/mark-comments-seen";
import { noteVisit } from "@/lib/store/room/note-visit";
import { readSinceLastVisit } from "@/lib/store/room/read-since-last-visit";
import { commentOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, proposed, valued } from "../duo";
import { RoomOfDuo } from "./room-of-duo";

openStoreForFile();
let duo: Duo;
let room: RoomOfDuo;
beforeEach(async () => {
  duo = await bringDuo();
  room = new RoomOfDuo(duo);
});

const comment = (by: Person, role: "pianist" | "soloist" | "coach", id: string) =>
  room.write(by, role, "comments", commentOf({ ...by, role }, id));

const leave = ({ userId }: Person, sequence: number) => noteVisit({ pieceId: duo.pieceId, userId, sequence });

const visitOf = ({ userId }: Person) =>
  database().roomVisit.findUnique({ where: { pieceId_userId: { pieceId: duo.pieceId, userId } } });

describe("since somebody was last here", () => {
  test("there is nothing to tell on a first visit", async () => {
    await comment(duo.pianist, "pianist", "c1");
    expect(valued(await readSinceLastVisit(duo.soloist, duo.pieceId))).toBeNull();
  });

  test("others wrote and did things, and one's own are not told", async () => {
    const { pianist, soloist, coach, pieceId } = duo;
    await comment(pianist, "pianist", "c1");
    const left = new Date(Date.now() + 60_000);
    await runAt(left, () => leave(soloist, 1));
    await comment(pianist, "pianist", "c2");
    await comment(soloist, "soloist", "c3");
    await comment(coach, "coach", "c4");
    const later = new Date(left.getTime() + 60_000);
    await runAt(later, async () => {
      await proposed(duo, 1, 2);
      valued(await setLimit(soloist, pieceId, { limitSeconds: 300 }));
    });
    const since = valued(await readSinceLastVisit(soloist, pieceId));
    expect(since?.lastVisit).toBe(left.toISOString());
    expect(since?.room.map(({ key, userId }) => [key, userId])).toEqual([
      ["c2", pianist.userId],
      ["c4", coach.userId],
    ]);
    expect(since?.done).toEqual([
      {
        at: later.toISOString(),
        userId: pianist.userId,
        what: "cut proposed",
        about: expect.objectContaining({ number: 1 }),
      },
    ]);
  });

  test("nothing is told where nothing happened", async () => {
    await comment(duo.pianist, "pianist", "c1");
    await runAt(new Date(Date.now() + 60_000), () => leave(duo.soloist, 1));
    const since = valued(await readSinceLastVisit(duo.soloist, duo.pieceId));
    expect(since).toMatchObject({ room: [], done: [] });
  });

  test("is not for readers and strangers", async () => {
    const { pieceId, reader, stranger } = duo;
    await leave(reader, 0);
    expect(kindOf(await readSinceLastVisit(reader, pieceId))).toBe("not-allowed");
    expect(kindOf(await readSinceLastVisit(stranger, pieceId))).toBe("not-found");
  });
});

describe("a visit", () => {
  test("never goes back, nor farther than the log", async () => {
    for (const id of ["c1", "c2", "c3"]) await comment(duo.pianist, "pianist", id);
    await leave(duo.soloist, 2);
    await leave(duo.soloist, 1);
    expect(await visitOf(duo.soloist)).toMatchObject({ sequence: 2 });
    await leave(duo.soloist, 99);
    expect(await visitOf(duo.soloist)).toMatchObject({ sequence: 3 });
    await Promise.all([3, 1, 2].map((sequence) => leave(duo.coach, sequence)));
    expect(await visitOf(duo.coach)).toMatchObject({ sequence: 3 });
  });

  test("is noted of members only", async () => {
    await database().member.updateMany({
      where: { pieceId: duo.pieceId, userId: duo.coach.userId },
      data: { removedAt: new Date() },
    });
    await leave(duo.stranger, 0);
    await leave(duo.coach, 0);
    await noteVisit({ pieceId: "nothing", userId: duo.pianist.userId, sequence: 0 });
    expect(await database().roomVisit.count({ where: { pieceId: duo.pieceId } })).toBe(0);
    await expect(leave(duo.pianist, -1)).rejects.toThrow(RangeError);
    await expect(leave(duo.pianist, 0.5)).rejects.toThrow(RangeError);
  });
});

describe("comments that were seen", () => {
  test("are noted once, for each person of their own", async () => {
    const { pianist, soloist, pieceId } = duo;
    valued(await markCommentsSeen(soloist, pieceId, ["c2", "c1", "c2"]));
    const first = await database().commentSeen.findFirst({ where: { pieceId, commentId: "c1" } });
    valued(
      await runAt(new Date(Date.now() + 60_000), () => markCommentsSeen(soloist, pieceId, ["c1", "c3"])),
    );
    expect(valued(await listSeenComments(soloist, pieceId))).toEqual(["c1", "c2", "c3"]);
    expect(valued(await listSeenComments(pianist, pieceId))).toEqual([]);
    const again = await database().commentSeen.findFirst({ where: { pieceId, commentId: "c1" } });
    expect(again?.at).toEqual(first?.at);
    valued(await markCommentsSeen(soloist, pieceId, []));
  });

  test.each([
    ["more than 200", Array.from({ length: 201 }, (_, index) => `c${index}`)],
    ["no id", ["not an id"]],
    ["no text", [7]],
    ["no list", "c1"],
  ] as [string, never][])("%s are refused", async (_what, ids) => {
    expect(kindOf(await markCommentsSeen(duo.pianist, duo.pieceId, ids))).toBe("invalid-input");
    expect(valued(await listSeenComments(duo.pianist, duo.pieceId))).toEqual([]);
  });

  test("are not more than a room may hold", async () => {
    const { pianist, pieceId } = duo;
    const full = Array.from({ length: maxRecords.comments }, (_, index) => `c${index}`);
    await database().commentSeen.createMany({
      data: full.map((commentId) => ({ pieceId, userId: pianist.userId, commentId })),
    });
    expect(kindOf(await markCommentsSeen(pianist, pieceId, ["more"]))).toBe("conflict");
    expect(kindOf(await markCommentsSeen(pianist, pieceId, ["c1"]))).toBe("done");
  });

  test("are neither noted nor listed for readers and strangers", async () => {
    const { pieceId, reader, stranger } = duo;
    expect(kindOf(await markCommentsSeen(reader, pieceId, ["c1"]))).toBe("not-allowed");
    expect(kindOf(await markCommentsSeen(stranger, pieceId, ["c1"]))).toBe("not-found");
    expect(kindOf(await listSeenComments(reader, pieceId))).toBe("not-allowed");
    expect(kindOf(await listSeenComments(stranger, pieceId))).toBe("not-found");
    expect(await database().commentSeen.count({ where: { pieceId } })).toBe(0);
  });
});
