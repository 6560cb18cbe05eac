import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { replayRoom, replayRoomInTurns } from "@/lib/room/history/replay-room";
import { roomRecordsAt } from "@/lib/room/history/room-records-at";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { roomAsJson } from "@/lib/room/room-as-json";
import { coach, pianist, soloist } from "@/test/lib/room/room-members";
import { breathOf, commentOf, put, resolutionOf, TestLog, versionOf } from "@/test/lib/room/room-records";
import { changesAsJson, RoomSchedule } from "@/test/lib/room/room-schedule";
import { scheduleCodes } from "@/test/lib/room/schedule-codes";

/** A page with the room's content and a client number that decides who wins. */
function pageOf(log: TestLog, clientId: number): Y.Doc {
  const page = openRoomDoc();
  Y.applyUpdate(page, Y.encodeStateAsUpdate(log.doc));
  page.clientID = clientId;
  return page;
}

const wordOf = (record: object) => ("text" in record ? record.text : "");

describe("replaying a room", () => {
  test("tells who changed which record in which entry, before and after", () => {
    const log = new TestLog();
    const [first, second] = [commentOf(pianist, "c1"), commentOf(pianist, "c1", { text: "Wait" })];
    log.write(pianist, "comments", first);
    log.write(soloist, "breaths", breathOf(soloist, "b1", 31));
    log.write(pianist, "comments", second);
    expect(replayRoom(log.entries)).toEqual([
      {
        ...{ sequence: 1, epoch: 1, at: "2026-11-25T08:01:00.000Z", userId: "ines" },
        ...{ map: "comments", key: "c1", before: null, after: first, isOvertaken: false },
      },
      expect.objectContaining({ sequence: 2, userId: "tobias", map: "breaths", before: null }),
      expect.objectContaining({ sequence: 3, userId: "ines", key: "c1", before: first, after: second }),
    ]);
  });

  test("tells every record of an entry that holds several", () => {
    const log = new TestLog();
    const page = pageOf(log, 7);
    for (const id of ["c1", "c2", "c3"]) put(page, "comments", commentOf(pianist, id), pianist);
    put(page, "comments", commentOf(pianist, "c2", { text: "Later" }), pianist);
    put(page, "breaths", breathOf(pianist, "b1", 3), pianist);
    log.take(page, pianist);
    expect(log.entries).toHaveLength(1);
    const changes = replayRoom(log.entries);
    expect(changes.map(({ key }) => key).sort()).toEqual(["b1", "c1", "c2", "c3"]);
    expect(changesAsJson(changes)).toBe(roomAsJson(log.doc));
  });

  // Which of two simultaneous writings stands is decided by the numbers of the clients.
  test.each([
    ["takes over", 1, 2],
    ["is overtaken", 2, 1],
  ])("tells a simultaneous writing that %s", (what, soloistClient, coachClient) => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    const [one, other] = [pageOf(log, soloistClient), pageOf(log, coachClient)];
    put(one, "resolutions", resolutionOf(soloist, "c1", true), soloist);
    put(other, "resolutions", resolutionOf(coach, "c1", false), coach);
    log.take(one, soloist);
    log.take(other, coach);
    const [, first, second] = replayRoom(log.entries);
    expect(first).toMatchObject({ userId: "tobias", after: { byId: "tobias" }, isOvertaken: false });
    expect(second).toMatchObject({
      ...{ userId: "mara", before: { byId: "tobias" }, after: { byId: "mara" } },
      isOvertaken: what === "is overtaken",
    });
    const standing = roomRecordsAt(log.entries, 3).resolutions[0]?.byId;
    expect(standing).toBe(what === "is overtaken" ? "tobias" : "mara");
  });

  test("tells the steps in between when a page kept them", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1", { text: "One" }));
    const page = openRoomDoc({ keepsOverwritten: true });
    Y.applyUpdate(page, Y.encodeStateAsUpdate(log.doc));
    for (const text of ["Two", "Three", "Four"])
      put(page, "comments", commentOf(pianist, "c1", { text }), pianist);
    log.take(page, pianist);
    const steps = replayRoom(log.entries).map(({ before, after }) =>
      [before, after].map((record) => record && "text" in record && record.text),
    );
    expect(steps).toEqual([
      [null, "One"],
      ["One", "Two"],
      ["Two", "Three"],
      ["Three", "Four"],
    ]);
  });

  test("tells nothing where a record is written again as it was", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    expect(log.entries).toHaveLength(2);
    expect(replayRoom(log.entries)).toHaveLength(1);
  });

  test("tells nothing where two devices of one person write the same at the same time", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    const [one, other] = [pageOf(log, 9), pageOf(log, 8)];
    for (const page of [one, other]) {
      put(page, "comments", commentOf(pianist, "c1", { text: "Wait" }), pianist);
      log.take(page, pianist);
    }
    expect(log.entries).toHaveLength(3);
    expect(replayRoom(log.entries).map(({ sequence }) => sequence)).toEqual([1, 2]);
  });

  test("tells no forged name in what nobody sees", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    const [one, other] = [pageOf(log, 9), pageOf(log, 8)];
    put(one, "resolutions", resolutionOf(soloist, "c1"), soloist);
    other.getMap("resolutions").set("c1", resolutionOf(pianist, "c1", false));
    log.take(one, soloist);
    log.take(other, coach);
    expect(log.entries).toHaveLength(3);
    expect(replayRoom(log.entries).map(({ userId }) => userId)).toEqual(["ines", "tobias"]);
  });

  test("tells of a room that begins anew only what differs, as done by nobody", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    log.write(soloist, "breaths", breathOf(soloist, "b1", 31));
    log.write(soloist, "breaths", breathOf(soloist, "b2", 33));
    const same = openRoomDoc();
    put(same, "comments", commentOf(pianist, "c1"), pianist);
    for (const [id, bar] of [
      ["b1", 31],
      ["b2", 33],
    ] as const)
      put(same, "breaths", breathOf(soloist, id, bar), soloist);
    log.beginAnew(same);
    expect(replayRoom(log.entries)).toHaveLength(3);

    const other = openRoomDoc();
    put(other, "comments", commentOf(pianist, "c1"), pianist);
    put(other, "breaths", breathOf(soloist, "b1", 32), soloist);
    log.beginAnew(other);
    log.write(pianist, "comments", commentOf(pianist, "c2"));
    const [gone, moved, written, ...more] = replayRoom(log.entries).slice(3);
    expect(gone).toMatchObject({ sequence: 5, epoch: 3, userId: null, key: "b2", after: null });
    expect(moved).toMatchObject({ sequence: 5, epoch: 3, userId: null, key: "b1" });
    expect(moved).toMatchObject({ before: { at: { barIndex: 31 } }, after: { at: { barIndex: 32 } } });
    expect(written).toMatchObject({ sequence: 6, epoch: 3, userId: "ines", key: "c2", before: null });
    expect(more).toEqual([]);
  });

  test("tells what vanished where a room began anew with nothing but somebody's first comment", () => {
    const log = new TestLog();
    log.write(pianist, "comments", commentOf(pianist, "c1"));
    [log.epoch, log.doc] = [2, openRoomDoc()];
    log.write(soloist, "comments", commentOf(soloist, "c2"));
    expect(replayRoom(log.entries).slice(1)).toMatchObject([
      { sequence: 2, epoch: 2, userId: null, key: "c1", after: null },
      { sequence: 2, epoch: 2, userId: "tobias", key: "c2", before: null },
    ]);
  });

  test("tells each writing of one page once, over hundreds of entries", async () => {
    const log = new TestLog();
    const page = openRoomDoc();
    const sent: Uint8Array[] = [];
    page.on("update", (update: Uint8Array) => sent.push(update));
    for (let index = 0; index < 350; index += 1)
      put(page, "comments", commentOf(pianist, `c${index % 3}`, { text: `Word ${index}` }), pianist);
    for (const update of sent) log.append(update, pianist.userId);
    const changes = replayRoom(log.entries);
    expect(
      changes.map(({ before, after }) => [before, after].map((record) => record && wordOf(record))),
    ).toEqual(
      Array.from({ length: 350 }, (_, index) => [index < 3 ? null : `Word ${index - 3}`, `Word ${index}`]),
    );
    expect(await replayRoomInTurns(log.entries)).toEqual(changes);
  });

  test("does not replay a log with a gap", () => {
    const log = new TestLog();
    const page = pageOf(log, 5);
    for (const id of ["c1", "c2", "c3"]) {
      put(page, "comments", commentOf(pianist, id), pianist);
      log.take(page, pianist);
    }
    expect(() => replayRoom(log.entries.filter(({ sequence }) => sequence !== 2))).toThrow("gap");
    expect(() => roomRecordsAt(log.entries.slice(1), 3)).toThrow("gap");
  });

  test("ends with what the document holds, and passes every state that it held", () => {
    fc.assert(
      fc.property(scheduleCodes({ min: 10, max: 40 }), ([seed = 0, ...codes]) => {
        const schedule = new RoomSchedule(seed);
        for (const code of codes) schedule.step(code);
        schedule.settle();
        const { log } = schedule.server;
        const changes = replayRoom(log);
        const doc = openRoomDoc();
        for (const { sequence, update } of log) {
          Y.applyUpdate(doc, update);
          const until = changes.filter((change) => change.sequence <= sequence);
          expect(changesAsJson(until)).toBe(roomAsJson(doc));
          const { comments, pencilledCuts } = roomRecordsAt(log, sequence);
          expect(comments).toHaveLength(doc.getMap("comments").size);
          expect(pencilledCuts).toHaveLength(doc.getMap("pencilledCuts").size);
        }
      }),
      { numRuns: 60 },
    );
  });
});

test("the room before its first entry is empty", () => {
  const log = new TestLog();
  log.write(pianist, "pencilledCuts", versionOf(pianist, "v1", [9, 17]));
  expect(roomRecordsAt(log.entries, 0)).toEqual({
    comments: [],
    resolutions: [],
    breaths: [],
    pencilledCuts: [],
    cues: [],
  });
  expect(roomRecordsAt(log.entries, 1).pencilledCuts).toEqual([versionOf(pianist, "v1", [9, 17])]);
});
