import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cutTermsSchema } from "@/lib/edition/cut-terms";
import { hashTerms, hashText } from "@/lib/edition/hash-terms";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readDatedRecords } from "@/lib/room/read-dated-records";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { signIn } from "@/lib/store/auth/sign-in";
import { closeDatabase, database } from "@/lib/store/database";
import { deletePiece } from "@/lib/store/deletion/delete-piece";
import { restorePiece } from "@/lib/store/deletion/restore-piece";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { mergeRoomLog } from "@/lib/store/room/merge-room-log";
import { readRoomHistoryLog } from "@/lib/store/room/read-room-history-log";
import { readRoomLog } from "@/lib/store/room/read-room-log";
import { listRooms, startRoomAnew } from "@/lib/store/room/start-room-anew";
import type { Viewer } from "@/lib/store/viewer";
import { loadDemo } from "@/seed/load-demo";
import { createFreshDatabase, type FreshDatabase } from "@/test/setup/fresh-database";
import { type Dump, dumpDatabase, restoreDump } from "./dump-database";
import { bringDuo, type Duo, openStore, proposed, valued } from "./duo";

const password = "a password for the demo";
let store: Awaited<ReturnType<typeof openStore>>;
let copy: FreshDatabase;
let dump: Dump;
let before: Awaited<ReturnType<typeof readAll>>;
let archives: Map<string, Buffer>;
let duo: Duo;
let nerys: Viewer;

/** Everything that has a hash, computed anew from what is stored and beside what is stored. */
async function readAll() {
  const editions = await database().edition.findMany({ orderBy: [{ pieceId: "asc" }, { number: "asc" }] });
  const proposals = await database().proposal.findMany({ orderBy: { id: "asc" } });
  const sources = await database().source.findMany({ orderBy: { id: "asc" }, include: { bytes: true } });
  const pieces = await listRooms();
  return {
    editions: editions.map(({ hash, previousHash, content }) => ({
      ...{ hash, previousHash, computed: hashText(content) },
    })),
    proposals: proposals.map(({ termsHash, terms }) => ({
      ...{ hash: termsHash, computed: hashTerms(cutTermsSchema.parse(terms)) },
    })),
    sources: sources.map(({ hash, bytes }) => ({
      ...{ hash, computed: createHash("sha256").update(bytes!.bytes).digest("hex") },
    })),
    rooms: await Promise.all(
      pieces.map(async (id) => JSON.stringify(await readDatedRecords(await readRoomHistoryLog(id)))),
    ),
  };
}

const archivesOf = async () => {
  const viewers = [
    [nerys, (await listPieces(nerys))[0]?.id ?? ""],
    [duo.pianist, duo.pieceId],
  ] as const;
  const packed = await Promise.all(
    viewers.map(
      async ([viewer, id]) => [id, Buffer.from(valued(await exportPiece(viewer, id)).bytes)] as const,
    ),
  );
  return new Map(packed);
};

beforeAll(async () => {
  store = await openStore();
  await loadDemo(password);
  nerys = valued(await signIn({ email: "nerys@example.org", password }, "192.0.2.7"));
  // A second piece, frozen twice, deleted and brought back: rows of every kind, and a chain.
  duo = await bringDuo();
  for (const [from, to] of [
    [9, 12],
    [14, 16],
  ] as const) {
    const { id, termsHash } = await proposed(duo, from, to);
    valued(await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }));
    const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
    for (const player of [duo.pianist, duo.soloist])
      valued(await approveEdition(player, duo.pieceId, { hash }));
  }
  valued(await deletePiece(duo.pianist, duo.pieceId, { title: "Concertino" }));
  valued(await restorePiece(duo.soloist, duo.pieceId));
  before = await readAll();
  archives = await archivesOf();
  dump = await dumpDatabase(process.env.DATABASE_URL ?? "");
  // From here on the product speaks with the other database.
  copy = await createFreshDatabase();
  await restoreDump(copy.url, dump);
  await closeDatabase();
  process.env.DATABASE_URL = copy.url;
});
afterAll(async () => {
  await store.close();
  await copy.drop();
});

describe("a database that was dumped and put into an empty one", () => {
  test("holds the same rows", async () => {
    expect(dump.tables.find(({ name }) => name === "Edition")?.rows).toHaveLength(3);
    expect(dump.tables.find(({ name }) => name === "RoomUpdate")?.rows.length).toBeGreaterThan(3);
    const again = await dumpDatabase(copy.url);
    const sorted = ({ tables, sequences }: Dump) => ({
      tables: tables.map(({ name, rows }) => ({ name, rows: [...rows].sort() })),
      sequences,
    });
    expect(sorted(again)).toEqual(sorted(dump));
  });

  test("has every hash: of editions and their chain, of terms, of sources; and every room its records", async () => {
    const after = await readAll();
    expect(after).toEqual(before);
    for (const { hash, computed } of [...after.editions, ...after.proposals, ...after.sources])
      expect(computed).toBe(hash);
    expect(after.editions.filter(({ previousHash }) => previousHash !== null)).toHaveLength(1);
  });

  test("gives every piece as the same archive, to the byte", async () => {
    const after = await archivesOf();
    for (const [id, bytes] of archives) expect(after.get(id)?.equals(bytes)).toBe(true);
  });

  test("refuses what the first refused", async () => {
    for (const table of [
      "Edition",
      "EditionApproval",
      "EditionProposal",
      "Answer",
      "AuditEntry",
      "RoomUpdate",
    ])
      await expect(database().$executeRawUnsafe(`DELETE FROM "${table}"`)).rejects.toThrow(/never changed/);
    await expect(database().$executeRawUnsafe(`UPDATE "Proposal" SET "reason" = 'x'`)).rejects.toThrow(
      /never changed/,
    );
    const [edition] = await database().edition.findMany({ where: { number: 1 } });
    const { id: _id, ...facts } = edition!;
    await expect(database().edition.create({ data: { ...facts, number: 9 } })).rejects.toThrow(
      /does not follow/,
    );
  });

  test("goes on: rooms begin anew with what they held, and what is written next gets the next numbers", async () => {
    const rooms = await listRooms();
    for (const id of rooms) {
      const log = await readRoomLog(id);
      const started = await startRoomAnew(id);
      expect(started).toMatchObject({ epoch: (log?.epoch ?? 0) + 1, sequence: (log?.sequence ?? 0) + 1 });
      const merged = await database().$transaction((tx) => mergeRoomLog(tx, id, started!.epoch));
      const empty = openRoomDoc();
      expect(merged.sequence).toBe(started!.sequence);
      expect([...merged.doc.share.keys()].sort()).toEqual([...empty.share.keys()].sort());
    }
    const after = await readAll();
    // The same records, written at the same moments: a new epoch changes neither.
    expect(after.rooms).toEqual(before.rooms);
    // The trail counts on: a sequence that began anew would meet rows that are there.
    const open = await proposed(duo, 18, 20);
    expect(open.number).toBe(3);
  });
});
