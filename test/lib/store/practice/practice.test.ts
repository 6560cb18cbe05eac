import { randomUUID } from "node:crypto";
import { beforeEach, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { listPractice } from "@/lib/store/practice/list-practice";
import { logPractice } from "@/lib/store/practice/log-practice";
import { removePractice } from "@/lib/store/practice/remove-practice";
import { restorePractice } from "@/lib/store/practice/restore-practice";
import { bringDuo, type Duo, kindOf, openStoreForFile, practiceOf, valued } from "../duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

test("what was practised is listed by its moment, for the pianist alone", async () => {
  const later = { ...practiceOf(duo), at: "2026-03-02T10:00:00.000Z", note: " up to tempo " };
  const earlier = practiceOf(duo);
  for (const entry of [later, earlier]) valued(await logPractice(duo.pianist, duo.pieceId, entry));
  const mine = valued(await listPractice(duo.pianist, duo.pieceId));
  expect(mine.map(({ id }) => id)).toEqual([earlier.entryId, later.entryId]);
  expect(mine[1]).toMatchObject({
    note: "up to tempo",
    tempo: { beat: "1", perMinute: 96 },
    removedAt: null,
  });
  for (const person of [duo.soloist, duo.coach, duo.reader])
    expect(valued(await listPractice(person, duo.pieceId))).toEqual([]);
  expect(kindOf(await listPractice(duo.stranger, duo.pieceId))).toBe("not-found");
});

test("nobody is told of it, and no trail is kept", async () => {
  const before = await database().auditEntry.count();
  valued(await logPractice(duo.pianist, duo.pieceId, practiceOf(duo)));
  expect(await database().auditEntry.count()).toBe(before);
});

test("an entry that is sent twice is kept once, and never under somebody else's name", async () => {
  const entry = practiceOf(duo);
  const [one, again] = await Promise.all([
    logPractice(duo.pianist, duo.pieceId, entry),
    logPractice(duo.pianist, duo.pieceId, { ...entry, note: "another" }),
  ]);
  expect(valued(again)).toEqual(valued(one));
  expect(await database().practiceEntry.count({ where: { pieceId: duo.pieceId } })).toBe(1);
  const other = await bringDuo();
  expect(kindOf(await logPractice(other.pianist, other.pieceId, entry))).toBe("conflict");
  expect(kindOf(await removePractice(other.pianist, other.pieceId, entry))).toBe("not-found");
});

test("what is taken off stays on record and comes back", async () => {
  const entry = practiceOf(duo);
  valued(await logPractice(duo.pianist, duo.pieceId, entry));
  valued(await removePractice(duo.pianist, duo.pieceId, entry));
  const [gone] = valued(await listPractice(duo.pianist, duo.pieceId));
  expect(gone?.removedAt).not.toBeNull();
  expect(valued(await removePractice(duo.pianist, duo.pieceId, entry)).removedAt).toBe(gone?.removedAt);
  expect(valued(await restorePractice(duo.pianist, duo.pieceId, entry)).removedAt).toBeNull();
});

test.each([
  ["bars that are not there", { toBar: 24 }, "invalid-input"],
  ["a passage that ends before it begins", { fromBar: 5, toBar: 4 }, "invalid-input"],
  ["another file", { sourceHash: "0".repeat(64) }, "stale-terms"],
  ["no tempo", { tempo: { beat: "0", perMinute: 96 } }, "invalid-input"],
  ["no name", { entryId: "mine" }, "invalid-input"],
  ["no moment", { at: "yesterday" }, "invalid-input"],
])("%s: refused", async (_name, change, kind) => {
  const entry = { ...practiceOf(duo), ...change };
  expect(kindOf(await logPractice(duo.pianist, duo.pieceId, entry))).toBe(kind);
});

test("only the pianist practises", async () => {
  for (const person of [duo.soloist, duo.coach, duo.reader]) {
    expect(kindOf(await logPractice(person, duo.pieceId, practiceOf(duo)))).toBe("not-allowed");
    const named = { entryId: randomUUID() };
    expect(kindOf(await restorePractice(person, duo.pieceId, named))).toBe("not-allowed");
  }
});
