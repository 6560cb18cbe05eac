import { expect, test } from "vitest";
import { findCommentsTouched } from "@/lib/room/comments-in-changes";
import type { RecordChange } from "@/lib/room/find-changed-records";
import { breathOf, commentOf } from "./room-records";

const member = { userId: "u-1", name: "Nerys Quill", role: "pianist" } as const;
const stands = commentOf(member, "c1");
const deleted = { ...stands, deletedAt: "2026-11-25T09:00:00.000Z" };
const change = (before: unknown, after: unknown, more: Partial<RecordChange> = {}): RecordChange => ({
  ...{ map: "comments", key: "c1", before, after, isOvertaken: false },
  ...more,
});

test.each<[what: string, change: RecordChange, written: string[], deleted: string[]]>([
  ["a new one is written", change(undefined, stands), ["c1"], []],
  ["one that is brought back is there again", change(deleted, stands), ["c1"], []],
  ["one that is deleted is gone", change(stands, deleted), [], ["c1"]],
  ["one that is reworded stays what it is", change(stands, { ...stands, text: "Later" }), [], []],
  ["one that was deleted before it came was never there", change(undefined, deleted), [], []],
  ["one that something overtook changes nothing", change(stands, stands, { isOvertaken: true }), [], []],
  ["a breath is none", change(undefined, breathOf(member, "b1", 2), { map: "breaths" }), [], []],
])("%s", (_what, one, written, gone) => {
  expect(findCommentsTouched([one])).toEqual({ written, deleted: gone });
});
