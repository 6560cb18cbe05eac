import "fake-indexeddb/auto";
import { randomUUID } from "node:crypto";
import { afterEach, expect, test } from "vitest";
import * as Y from "yjs";
import { copyName, listCopies, readCopyName } from "@/app/_room/copy-name";
import { clearCopies, findLeftWritings, letGoOfCopy } from "@/app/_room/left-writings";
import { openLocalCopy } from "@/app/_room/local-copy";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { comment, put } from "@/test/realtime/records";

const now = new Date("2026-11-26T10:00:00Z");
const [me, other] = [randomUUID(), randomUUID()];

afterEach(async () => {
  for (const { name } of await indexedDB.databases()) indexedDB.deleteDatabase(name ?? "");
});

/** Leaves a copy in the browser, as a closed page does. @returns the piece. */
async function leave(
  userId: string,
  { stored = [], unsaved = [], kept = [], theirs = [] }: Record<string, string[] | undefined>,
): Promise<string> {
  const pieceId = randomUUID();
  const doc = openRoomDoc();
  const copy = await openLocalCopy(userId, pieceId, doc);
  for (const text of stored) put(doc, "comments", comment(userId, text));
  await copy.writeNote("stored", Y.encodeStateVector(doc));
  for (const text of unsaved) put(doc, "comments", comment(userId, text));
  for (const text of theirs) put(doc, "comments", comment(randomUUID(), text));
  const records = kept.map((text) => comment(userId, text));
  await copy.keep(
    records.map((record) => ({ map: "comments", key: record.id, record, sentence: "Refused." })),
  );
  await copy.close();
  doc.destroy();
  return pieceId;
}

const names = async () => (await listCopies()).map(({ pieceId }) => pieceId).sort();

test("what is only in this browser is found, piece by piece, and nothing of anybody else", async () => {
  await leave(me, { stored: ["Stored"], theirs: ["Not noted as stored"] });
  const away = await leave(me, { stored: ["Stored"], unsaved: ["In the train"], theirs: ["Theirs"] });
  const refused = await leave(me, { kept: ["Refused words"] });
  await leave(other, { unsaved: ["Someone else's"] });
  const left = await findLeftWritings(me, "Ines Varga", now);
  const found = new Map(left.map(({ pieceId, writings }) => [pieceId, writings.map(({ text }) => text)]));
  expect(found).toEqual(
    new Map([
      [away, ["In the train"]],
      [refused, ["Refused words"]],
    ]),
  );
  const [first] = left.map(({ file }) => JSON.parse(file));
  expect(first).toMatchObject({ writtenBy: { userId: me, name: "Ines Varga" }, savedAt: now.toISOString() });
});

test("copies with nothing unsaved go; the others stay as they are", async () => {
  await leave(me, { stored: ["Stored"] });
  const unsaved = await leave(me, { stored: ["Stored"], unsaved: ["In the train"] });
  const kept = await leave(me, { kept: ["Refused words"] });
  const theirs = await leave(other, { stored: ["Stored"] });
  await clearCopies(({ userId }) => userId === me);
  expect(await names()).toEqual([unsaved, kept, theirs].sort());
  expect((await findLeftWritings(me, "", now)).flatMap(({ writings }) => writings)).toHaveLength(2);
});

test("one that a page has open is emptied all the same", async () => {
  const pieceId = await leave(me, { stored: ["Stored"] });
  const page = await openLocalCopy(me, pieceId, openRoomDoc());
  await clearCopies(() => true);
  const doc = openRoomDoc();
  await page.close();
  const again = await openLocalCopy(me, pieceId, doc);
  expect(doc.getMap("comments").size).toBe(0);
  await again.close();
});

test("a copy is let go with everything in it", async () => {
  const pieceId = await leave(me, { unsaved: ["Gone then"], kept: ["This too"] });
  await letGoOfCopy({ userId: me, pieceId });
  expect(await findLeftWritings(me, "", now)).toEqual([]);
});

test("names of copies are read back, and no others", () => {
  const place = { userId: me, pieceId: other };
  expect(readCopyName(copyName(place))).toEqual(place);
  for (const name of ["", "colla-room-", `colla-room-${me}`, `x${copyName(place)}`, "next-cache"])
    expect(readCopyName(name)).toBeNull();
});
