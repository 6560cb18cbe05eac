import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type * as Y from "yjs";
import { findRestoration } from "@/lib/room/history/find-restoration";
import { listRecords, type RoomRecordsAt, roomRecordsAt } from "@/lib/room/history/room-records-at";
import { copyRoomDoc } from "@/lib/room/open-room-doc";
import { readBreaths } from "@/lib/room/read-breaths";
import { readPencilledCuts } from "@/lib/room/read-pencilled-cuts";
import type { RoomMember } from "@/lib/room/room-member";
import { coach, pianist, reader, soloist } from "@/test/lib/room/room-members";
import { breathOf, commentOf, put, resolutionOf, TestLog, versionOf } from "@/test/lib/room/room-records";
import { RoomSchedule } from "@/test/lib/room/room-schedule";
import { scheduleCodes } from "@/test/lib/room/schedule-codes";

const now = new Date("2026-11-25T12:00:00.000Z");
let names = 0;
const newId = () => `r${String(++names).padStart(6, "0")}`;

/** Restores on a copy and gives the copy; every write passes the room's own check. */
function restored(doc: Y.Doc, then: RoomRecordsAt, member: RoomMember): Y.Doc {
  const copy = copyRoomDoc(doc);
  for (const { map, record } of findRestoration(copy, then, member, now, newId).writes)
    put(copy, map, record, member);
  return copy;
}

/** The room after entry 3 of a log that went on until everything was different. */
function changedRoom(): { log: TestLog; then: RoomRecordsAt } {
  const log = new TestLog();
  log.write(pianist, "comments", commentOf(pianist, "c1"));
  log.write(soloist, "breaths", breathOf(soloist, "b1", 31));
  log.write(soloist, "pencilledCuts", versionOf(soloist, "v1", [9, 17]));
  const then = roomRecordsAt(log.entries, 3);
  log.write(pianist, "comments", commentOf(pianist, "c1", { text: "Do not wait" }));
  log.write(pianist, "comments", commentOf(pianist, "c2"));
  log.write(coach, "comments", commentOf(coach, "c3"));
  log.write(coach, "resolutions", resolutionOf(coach, "c1"));
  log.write(soloist, "breaths", breathOf(soloist, "b1", 33));
  log.write(soloist, "breaths", breathOf(soloist, "b2", 40));
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v2", [9, 21], ["v1"]));
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v3", [50, 60], [], { cutId: "p2" }));
  return { log, then };
}

describe("making a room as it was", () => {
  test("writes one's own things, the cuts and what is resolved, and leaves the rest to its authors", () => {
    const { log, then } = changedRoom();
    const { writes, leftToOthers } = findRestoration(log.doc, then, pianist, now, () => "r1");
    const iso = now.toISOString();
    expect(writes).toEqual([
      { map: "comments", key: "c1", record: commentOf(pianist, "c1", { editedAt: iso }) },
      { map: "comments", key: "c2", record: commentOf(pianist, "c2", { deletedAt: iso }) },
      {
        ...{ map: "pencilledCuts", key: "r1" },
        record: versionOf(pianist, "r1", [9, 17], ["v2"], { createdAt: iso }),
      },
      {
        ...{ map: "pencilledCuts", key: "r1" },
        record: versionOf(pianist, "r1", [50, 60], ["v3"], {
          ...{ cutId: "p2", createdAt: iso, isRubbedOut: true },
        }),
      },
      {
        ...{ map: "resolutions", key: "c1" },
        record: { ...resolutionOf(pianist, "c1", false), at: iso },
      },
    ]);
    expect(leftToOthers).toEqual([
      { map: "comments", key: "c3", userId: "mara" },
      { map: "breaths", key: "b1", userId: "tobias" },
      { map: "breaths", key: "b2", userId: "tobias" },
    ]);
  });

  test("brings the soloist's breaths back as they were", () => {
    const { log, then } = changedRoom();
    const doc = restored(log.doc, then, soloist);
    expect(readBreaths(doc).map(({ id, at }) => [id, at.barIndex])).toEqual([["b1", 31]]);
    expect(doc.getMap("breaths").size).toBe(2);
  });

  test("leaves the cuts to the players when a coach does it, and everything when a reader does", () => {
    const { log, then } = changedRoom();
    const { writes, leftToOthers } = findRestoration(log.doc, then, coach, now, newId);
    expect(writes.map(({ map, key }) => [map, key])).toEqual([
      ["comments", "c3"],
      ["resolutions", "c1"],
    ]);
    expect(leftToOthers.filter(({ map }) => map === "pencilledCuts").map(({ key }) => key)).toEqual([
      "v2",
      "v3",
    ]);
    expect(findRestoration(log.doc, then, reader, now)).toEqual({ writes: [], leftToOthers: [] });
  });

  test("brings back a dispute as a dispute", () => {
    const log = new TestLog();
    log.write(soloist, "pencilledCuts", versionOf(soloist, "v1", [9, 17]));
    log.write(pianist, "pencilledCuts", versionOf(pianist, "v2", [9, 21]));
    const then = roomRecordsAt(log.entries, 2);
    log.write(pianist, "pencilledCuts", versionOf(pianist, "v3", [9, 19], ["v1", "v2"]));
    const doc = restored(log.doc, then, soloist);
    expect(readPencilledCuts(doc)[0]?.versions.map(({ to }) => to.barIndex)).toEqual([17, 21]);
  });

  test("has nothing to write where nothing differs", () => {
    const { log } = changedRoom();
    const then = roomRecordsAt(log.entries, log.entries.length);
    expect(findRestoration(log.doc, then, pianist, now)).toEqual({ writes: [], leftToOthers: [] });
  });
});

/** What a room says of what a member may restore, without the times at which it was written. */
function ownThings(doc: Y.Doc, { userId }: RoomMember) {
  const { comments, breaths, cues, resolutions } = listRecords(doc);
  return {
    comments: comments
      .filter((record) => record.authorId === userId)
      .map(({ id, text, deletedAt, print }) => [id, text, deletedAt, print]),
    breaths: breaths.filter((record) => record.authorId === userId),
    cues: cues.filter((record) => record.authorId === userId),
    resolved: resolutions.filter((record) => record.isResolved).map(({ commentId }) => commentId),
    cuts: readPencilledCuts(doc)
      .map(({ cutId, versions }) => [
        cutId,
        versions.map(({ from, to, isRubbedOut }) => JSON.stringify([from, to, isRubbedOut])).sort(),
      ])
      .sort(),
  };
}

/** Which of one's things the room had then: what came later is deleted, and not gone. */
function knownThen(then: RoomRecordsAt) {
  return new Set([...then.comments, ...then.breaths, ...then.cues].map(({ id }) => id));
}

test("restoring a former state makes one's own things as they were, and restoring back as they are", () => {
  fc.assert(
    fc.property(scheduleCodes({ min: 10, max: 40 }), fc.nat(), ([seed = 0, ...codes], at) => {
      const schedule = new RoomSchedule(seed);
      for (const code of codes) schedule.step(code);
      schedule.settle();
      const { log, doc } = schedule.server;
      const then = roomRecordsAt(log, at % (log.length + 1));
      const today = listRecords(doc);
      for (const member of [pianist, soloist]) {
        const former = restored(doc, then, member);
        const left = findRestoration(former, then, member, now, newId);
        expect(left.writes).toEqual([]);
        const known = knownThen(then);
        for (const { id, text, deletedAt, authorId } of listRecords(former).comments) {
          if (authorId !== member.userId) continue;
          const stood = then.comments.find((record) => record.id === id);
          if (known.has(id)) expect([text, deletedAt]).toEqual([stood?.text, stood?.deletedAt]);
          else expect(deletedAt).not.toBeNull();
        }
        const back = restored(former, today, member);
        expect(ownThings(back, member)).toEqual(ownThings(doc, member));
      }
    }),
    { numRuns: 150 },
  );
});
