import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { appendRoomUpdates } from "@/lib/store/room/append-room-updates";
import { auditRoomLog } from "@/test/bench/audit-room-log";
import { bringGuest, bringPiece, type Guest, openHouse } from "@/test/realtime/house";
import { comment, put } from "@/test/realtime/records";

let house: Awaited<ReturnType<typeof openHouse>>;
let pianist: Guest;
let coach: Guest;

beforeAll(async () => {
  house = await openHouse();
  pianist = await bringGuest("Ines Varga");
  coach = await bringGuest("Dagny Thorsell");
});

afterAll(() => house.close());

/** What the audit says of a log with one entry, which passed no gate. */
async function auditOf(writer: Guest, act: (doc: Y.Doc) => void) {
  const pieceId = await bringPiece({ pianist, coach });
  const doc = openRoomDoc();
  act(doc);
  const update = Y.encodeStateAsUpdate(doc);
  await appendRoomUpdates([{ viewer: writer, pieceId, epoch: 1, after: 0, update }]);
  return auditRoomLog(pieceId);
}

test("finds nothing in a log of what may stand there", async () => {
  const audit = await auditOf(coach, (doc) => put(doc, "comments", comment(coach.userId, "Here")));
  expect(audit).toEqual({ entries: 1, records: 1, faults: [] });
});

test.each<[string, (doc: Y.Doc) => void]>([
  ["another's name", (doc) => put(doc, "comments", comment(pianist.userId, "Not mine"))],
  ["a map of another name", (doc) => doc.getMap("agreement").set("x", true)],
  ["a nested map", (doc) => doc.getMap("comments").set("c1", new Y.Map([["id", "c1"]]))],
  [
    "a breath of somebody who marks none",
    (doc) => {
      const record = { id: "b1", authorId: coach.userId, at: { barIndex: 1, offset: "0" }, deletedAt: null };
      doc.getMap("breaths").set("b1", record);
    },
  ],
])("finds %s", async (_what, act) => {
  const { faults } = await auditOf(coach, act);
  expect(faults.length).toBeGreaterThan(0);
});
