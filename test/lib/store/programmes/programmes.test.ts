import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listMyPerformances, listPerformances } from "@/lib/store/performances/list-performances";
import { logPerformance } from "@/lib/store/performances/log-performance";
import { changeProgramme } from "@/lib/store/programmes/change-programme";
import { drawUpProgramme } from "@/lib/store/programmes/draw-up-programme";
import { listMyProgrammes, readProgramme } from "@/lib/store/programmes/read-programme";
import { removeProgramme, restoreProgramme } from "@/lib/store/programmes/remove-programme";
import type { Viewer } from "@/lib/store/viewer";
import { bringDuo, type Duo, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();

/** The pianist of the first piece plays the second with somebody else. */
let first: Duo;
let second: Duo;
let pianist: Viewer;
let programmeId: string;
beforeEach(async () => {
  first = await bringDuo({ title: "Concertino" });
  second = await bringDuo({ title: "Romance" });
  pianist = first.pianist;
  for (const { soloist, pieceId, ...duo } of [first, second]) {
    const { hash } = valued(await readWorkingEdition(duo.pianist, pieceId));
    for (const player of [duo.pianist, soloist]) valued(await approveEdition(player, pieceId, { hash }));
  }
  await database().member.updateMany({
    where: { pieceId: second.pieceId, role: "pianist" },
    data: { removedAt: new Date() },
  });
  await database().member.create({
    data: { pieceId: second.pieceId, userId: pianist.userId, role: "pianist" },
  });
  programmeId = valued(await drawUpProgramme(pianist, head)).programmeId;
});

const head = {
  ...{
    kind: "recital",
    name: "Spring recital",
    on: "2026-03-28",
    startsAt: "19:30",
    place: "Millrace Chapel",
  },
  ...{ limitSeconds: 1200, remarks: "Bring the low stool." },
};
const words = {
  ...{
    kind: "words",
    title: "Two songs, unaccompanied",
    plannedSeconds: 240,
    realSeconds: null,
    gapSeconds: 30,
  },
};
const pieceOf = ({ pieceId }: Duo, gapSeconds = 0) => ({
  kind: "piece",
  pieceId,
  editionNumber: 1,
  gapSeconds,
});
const own = async () => {
  const read = valued(await readProgramme(pianist, programmeId));
  if (!read.own) throw new Error("not its owner");
  return { ...read, own: read.own };
};
const write = async (items: readonly unknown[], change = {}) =>
  changeProgramme(pianist, { ...head, programmeId, revision: (await own()).own.revision, items, ...change });

describe("a programme", () => {
  test("is an owner's until a piece of somebody's stands on it", async () => {
    expect(await listMyProgrammes(pianist)).toMatchObject([{ name: "Spring recital", isMine: true }]);
    for (const person of [first.soloist, first.coach, first.stranger]) {
      expect(await listMyProgrammes(person)).toEqual([]);
      expect(kindOf(await readProgramme(person, programmeId))).toBe("not-found");
    }
  });

  test("logs a performance for each piece that is put on it, in order, with gaps", async () => {
    valued(await write([pieceOf(first), words, pieceOf(second, 90)]));
    expect(await own()).toMatchObject({
      entries: [
        { kind: "performance", performance: { pieceTitle: "Concertino" }, expected: { seconds: 48 } },
        { kind: "words", title: "Two songs, unaccompanied", plannedSeconds: 240, gapSeconds: 30 },
        { kind: "performance", performance: { pieceTitle: "Romance" }, gapSeconds: 90 },
      ],
    });
    expect(valued(await listPerformances(first.soloist, first.pieceId))).toMatchObject([
      { name: "Spring recital", on: "2026-03-28", place: "Millrace Chapel", kind: "recital" },
    ]);
  });

  test("a member of one piece sees that piece’s entry, when and where, and nothing else", async () => {
    valued(await write([pieceOf(second), words, pieceOf(first)]));
    for (const person of [first.soloist, first.coach]) {
      const seen = valued(await readProgramme(person, programmeId));
      expect(seen).toMatchObject({ name: "Spring recital", on: "2026-03-28", place: "Millrace Chapel" });
      expect(seen.own).toBeNull();
      expect(seen.entries).toMatchObject([{ performance: { pieceTitle: "Concertino" } }]);
      expect(JSON.stringify(seen)).not.toMatch(/Romance|unaccompanied|low stool/);
      expect(JSON.stringify(await listMyProgrammes(person))).not.toMatch(/Romance|unaccompanied|low stool/);
    }
    for (const person of [first.reader, first.stranger])
      expect(kindOf(await readProgramme(person, programmeId))).toBe("not-found");
  });

  test("everybody reads their own pages of an edition on it", async () => {
    valued(await write([pieceOf(first)]));
    const reads = async (person: typeof pianist) =>
      valued(await readProgramme(person, programmeId)).entries.map(
        (entry) => "reads" in entry && entry.reads,
      );
    expect(await reads(first.soloist)).toEqual(["soloist"]);
    expect(await reads(first.coach)).toEqual(["pianist"]);
    expect(await reads(pianist)).toEqual(["pianist"]);
  });

  test("its owner, once they left a piece, is told only that there is another piece, and can move it", async () => {
    valued(await write([pieceOf(second), pieceOf(first)]));
    await database().member.updateMany({
      where: { pieceId: second.pieceId, userId: pianist.userId },
      data: { removedAt: new Date() },
    });
    const seen = await own();
    expect(seen.entries.map(({ kind }) => kind)).toEqual(["another piece", "performance"]);
    expect(JSON.stringify(seen)).not.toContain("Romance");
    const kept = seen.entries
      .map(({ itemId, gapSeconds }) => ({ kind: "kept", itemId, gapSeconds }))
      .reverse();
    valued(await write(kept));
    expect((await own()).entries.map(({ kind }) => kind)).toEqual(["performance", "another piece"]);
    // A day that moves takes along only what its owner may still change.
    valued(await write(kept, { on: "2026-03-29" }));
    const dates = await database().performance.findMany({
      where: { pieceId: { in: [first.pieceId, second.pieceId] } },
      select: { on: true },
    });
    expect(dates.map(({ on }) => on.toISOString().slice(0, 10)).sort()).toEqual(["2026-03-28", "2026-03-29"]);
  });

  test("takes a performance that was logged before; not twice, and not a stranger’s", async () => {
    const occasion = { kind: "jury", name: "Jury", on: "2026-03-28", editionNumber: 1 };
    const { id } = valued(await logPerformance(first.soloist, first.pieceId, occasion));
    const entry = { kind: "performance", performanceId: id, gapSeconds: 0 };
    expect(kindOf(await write([entry, entry]))).toBe("conflict");
    valued(await write([entry]));
    const other = await bringDuo({ title: "Secret" });
    const { hash } = valued(await readWorkingEdition(other.pianist, other.pieceId));
    for (const player of [other.pianist, other.soloist])
      valued(await approveEdition(player, other.pieceId, { hash }));
    const foreign = valued(await logPerformance(other.soloist, other.pieceId, occasion));
    expect(kindOf(await write([{ ...entry, performanceId: foreign.id }]))).toBe("not-found");
    expect(kindOf(await write([pieceOf(other)]))).toBe("not-found");
    expect((await own()).entries).toHaveLength(1);
  });

  test("only its owner changes it; nobody over what they have not seen; what stood there stays in the trail", async () => {
    valued(await write([pieceOf(first), words]));
    const change = { ...head, programmeId, revision: 1, items: [] };
    expect(kindOf(await changeProgramme(first.soloist, change))).toBe("not-allowed");
    expect(kindOf(await changeProgramme(first.stranger, change))).toBe("not-found");
    expect(kindOf(await changeProgramme(pianist, { ...change, revision: 0 }))).toBe("stale-terms");
    valued(await write([]));
    const trail = await database().auditEntry.findMany({
      where: { about: { path: ["programmeId"], equals: programmeId } },
      orderBy: { id: "asc" },
    });
    expect(trail.map(({ what }) => what)).toEqual([
      ...["programme drawn up", "programme changed", "programme changed"],
    ]);
    expect(JSON.stringify(trail.at(-1)?.about)).toContain("Two songs, unaccompanied");
    expect(await listMyPerformances(first.soloist)).toHaveLength(1);
  });

  test("is taken off and brought back as it stood", async () => {
    valued(await write([words, pieceOf(first)]));
    const before = await own();
    expect(kindOf(await removeProgramme(first.soloist, { programmeId }))).toBe("not-allowed");
    valued(await removeProgramme(pianist, { programmeId }));
    expect(kindOf(await readProgramme(first.soloist, programmeId))).toBe("not-found");
    expect((await own()).own.isRemoved).toBe(true);
    valued(await restoreProgramme(pianist, { programmeId }));
    expect((await own()).entries).toEqual(before.entries);
  });

  test.each([
    ["an entry without words", { ...words, title: " " }],
    ["a gap of a day", { ...words, gapSeconds: 86_400 }],
    ["an entry that never stood there", { kind: "kept", itemId: "no such", gapSeconds: 0 }],
  ])("%s is refused", async (_what, item) => {
    expect(kindOf(await write([item]))).toMatch(/invalid-input|not-found/);
  });
});
