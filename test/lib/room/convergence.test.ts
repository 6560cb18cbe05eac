import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { CommentRecord } from "@/lib/room/comment-record";
import { mergeUpdates } from "@/lib/room/merge-updates";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { clocksOf, countUnsaved, noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import { writeRecord } from "@/lib/room/write-record";
import { pianist } from "@/test/lib/room/room-members";
import { runSchedule } from "@/test/lib/room/run-schedule";
import { scheduleCodes } from "@/test/lib/room/schedule-codes";

test.each([
  ["many short schedules", { min: 4, max: 12 }, 1_500],
  ["some long schedules", { min: 40, max: 120 }, 60],
])("%s: pages, server and replayed log end the same, and nothing is lost", (_what, operations, numRuns) => {
  fc.assert(
    fc.property(scheduleCodes(operations), (codes) => {
      runSchedule(codes);
    }),
    { numRuns },
  );
});

function writeComment(doc: Y.Doc, key: number): void {
  const record: CommentRecord = {
    id: `c${key}`,
    authorId: pianist.userId,
    createdAt: "2026-11-25T08:00:00.000Z",
    text: "word",
    about: { kind: "proposal", proposalId: "p1" },
    replyTo: null,
    deletedAt: null,
    print: false,
  };
  expect(writeRecord(doc, "comments", record, pianist).ok).toBe(true);
}

test("each record written counts as one unsaved write until its clock is acknowledged", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(4), { minLength: 1, maxLength: 20 }), (keys) => {
      const doc = openRoomDoc();
      const sent: Uint8Array[] = [];
      doc.on("update", (update: Uint8Array) => sent.push(update));
      for (const key of keys) writeComment(doc, key);
      let stored: StoredClocks = new Map();
      expect(countUnsaved(doc, stored)).toBe(keys.length);
      sent.forEach((update, index) => {
        stored = noteStored(stored, clocksOf(update));
        expect(countUnsaved(doc, stored)).toBe(keys.length - index - 1);
      });
      stored = noteStored(new Map(), Y.encodeStateVector(doc));
      expect(countUnsaved(doc, stored)).toBe(0);
    }),
    { numRuns: 100 },
  );
});

test("a log with a gap is not merged", () => {
  const doc = openRoomDoc();
  const sent: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => sent.push(update));
  for (const key of [1, 2, 3]) writeComment(doc, key);
  expect(() => mergeUpdates([sent[0] as Uint8Array, sent[2] as Uint8Array])).toThrow("gap");
});
