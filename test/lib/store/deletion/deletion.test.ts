import { beforeEach, describe, expect, test } from "vitest";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { importPiece } from "@/lib/store/archive/import-piece";
import { hashToken, startSession } from "@/lib/store/auth/session";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { deletePiece } from "@/lib/store/deletion/delete-piece";
import { listDeletedPieces } from "@/lib/store/deletion/list-deleted-pieces";
import { purgeDeletedPieces } from "@/lib/store/deletion/purge-deleted-pieces";
import { restorePiece } from "@/lib/store/deletion/restore-piece";
import { listCandidates } from "@/lib/store/digest/list-candidates";
import { listEditions } from "@/lib/store/editions/list-editions";
import { acceptInvitation } from "@/lib/store/invitations/accept-invitation";
import { readInvitation } from "@/lib/store/invitations/read-invitation";
import { listMyPerformances } from "@/lib/store/performances/list-performances";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { setLimit } from "@/lib/store/pieces/set-limit";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { admitToRooms } from "@/lib/store/room/admit-to-room";
import { appendRoomUpdate } from "@/lib/store/room/append-room-update";
import { appendRoomUpdates } from "@/lib/store/room/append-room-updates";
import { type BusyDesk, bringBusyDesk } from "@/test/app/strangers/desk";
import { bringPerson, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();
let desk: BusyDesk;
beforeEach(async () => {
  desk = await bringBusyDesk();
});

const titleOf = async () => (await database().piece.findUniqueOrThrow({ where: { id: desk.pieceId } })).title;
const remove = async () => valued(await deletePiece(desk.pianist, desk.pieceId, { title: await titleOf() }));
const day = 24 * 60 * 60 * 1000;
const inDays = (days: number) => new Date(Date.now() + days * day);

describe("a piece that was deleted", () => {
  test("is nowhere any more, for nobody, and its room lets nobody in and takes nothing", async () => {
    const { tokenHash } = await (async () => {
      const { token } = await startSession(desk.soloist.userId);
      return { tokenHash: hashToken(token) };
    })();
    const asked = [{ tokenHash, pieceId: desk.pieceId }];
    expect((await admitToRooms(asked))[0]?.ok).toBe(true);
    expect(await listWaiting(desk.soloist)).not.toEqual([]);
    expect(await listCandidates(new Date())).not.toEqual([]);
    await remove();
    for (const person of [desk.pianist, desk.soloist, desk.coach, desk.reader]) {
      expect(await listPieces(person)).toEqual([]);
      expect(await listWaiting(person)).toEqual([]);
      expect(await listMyPerformances(person)).toEqual([]);
      expect(kindOf(await listProposals(person, desk.pieceId))).toBe("not-found");
      expect(kindOf(await listEditions(person, desk.pieceId))).toBe("not-found");
      expect(kindOf(await exportPiece(person, desk.pieceId))).toBe("not-found");
      expect(kindOf(await deletePiece(person, desk.pieceId, { title: "x" }))).toBe("not-found");
    }
    expect(kindOf(await setLimit(desk.pianist, desk.pieceId, { limitSeconds: 300 }))).toBe("not-found");
    expect((await admitToRooms(asked))[0]).toMatchObject({ ok: false, problem: { kind: "not-found" } });
    const update = { pieceId: desk.pieceId, epoch: 1, update: new Uint8Array([0, 0]) };
    expect(kindOf(await appendRoomUpdate(desk.pianist, { ...update, node: "a" }))).toBe("not-found");
    const [appended] = await appendRoomUpdates([{ ...update, viewer: desk.pianist, after: 0 }]);
    expect(appended?.ok).toBe(false);
    expect(kindOf(await readInvitation(desk.invitation.token, "192.0.2.1"))).toBe("not-found");
    expect(kindOf(await acceptInvitation(desk.stranger, desk.invitation.token))).toBe("not-found");
    expect((await listCandidates(new Date())).filter(({ pieceId }) => pieceId === desk.pieceId)).toEqual([]);
  });

  test("needs its title and a player", async () => {
    for (const title of ["", "another", `${await titleOf()} II`])
      expect(kindOf(await deletePiece(desk.pianist, desk.pieceId, { title }))).toBe("invalid-input");
    const title = await titleOf();
    for (const person of [desk.coach, desk.reader])
      expect(kindOf(await deletePiece(person, desk.pieceId, { title }))).toBe("not-allowed");
    expect(kindOf(await deletePiece(desk.stranger, desk.pieceId, { title }))).toBe("not-found");
    expect(await listPieces(desk.pianist)).toHaveLength(1);
  });

  test("is brought back by either player within thirty days, as it was", async () => {
    const before = valued(await exportPiece(desk.pianist, desk.pieceId)).bytes;
    await remove();
    expect(await listDeletedPieces(desk.soloist)).toMatchObject([
      { id: desk.pieceId, deletedBy: desk.pianist.name, daysLeft: 30 },
    ]);
    for (const person of [desk.coach, desk.stranger]) {
      expect(await listDeletedPieces(person)).toEqual([]);
      expect(kindOf(await restorePiece(person, desk.pieceId))).not.toBe("done");
    }
    await runAt(inDays(29.5), async () => {
      expect(await listDeletedPieces(desk.soloist)).toMatchObject([{ daysLeft: 1 }]);
      expect(await purgeDeletedPieces()).toBe(0);
      valued(await restorePiece(desk.soloist, desk.pieceId));
    });
    expect(await listPieces(desk.coach)).toHaveLength(1);
    expect(kindOf(await restorePiece(desk.soloist, desk.pieceId))).toBe("not-found");
    const after = valued(await exportPiece(desk.pianist, desk.pieceId)).bytes;
    // Only the trail tells of it.
    expect(after.length).toBeGreaterThan(before.length);
  });
});

describe("a piece that was deleted more than thirty days ago", () => {
  const age = (days: number) =>
    database().piece.update({ where: { id: desk.pieceId }, data: { deletedAt: inDays(-days) } });

  test("cannot be brought back, and goes with every row of it, and no row of another piece", async () => {
    const other = await bringBusyDesk();
    const { bytes } = valued(await exportPiece(desk.pianist, desk.pieceId));
    await age(31);
    expect(await listDeletedPieces(desk.pianist)).toEqual([]);
    expect(kindOf(await restorePiece(desk.pianist, desk.pieceId))).toBe("not-found");
    const rows = await countRows(desk.pieceId);
    expect(rows.Edition).toBe(1);
    const others = await countRows(other.pieceId);
    expect(await purgeDeletedPieces()).toBe(1);
    expect(Object.values(await countRows(desk.pieceId)).every((count) => count === 0)).toBe(true);
    expect(await countRows(other.pieceId)).toEqual(others);
    expect(await purgeDeletedPieces()).toBe(0);
    // What was taken along before comes in again, and names without an account go with the piece they stand in.
    const people = await database().user.count();
    const again = valued(await importPiece(desk.pianist, { who: "p1" }, bytes));
    expect(await database().user.count()).toBe(people + 3);
    await database().piece.update({ where: { id: again.pieceId }, data: { deletedAt: inDays(-31) } });
    expect(await purgeDeletedPieces()).toBe(1);
    expect(await database().user.count()).toBe(people);
  });

  test("before that the database refuses, whatever the setting says", async () => {
    await age(29);
    const asked = await database().$queryRaw`SELECT purge_deleted_piece(${desk.pieceId}) AS purged`;
    expect(asked).toEqual([{ purged: false }]);
    const force = (sql: string) =>
      database().$transaction(async (tx) => {
        await tx.$executeRaw`SELECT set_config('colla.purges_piece', ${desk.pieceId}, true)`;
        await tx.$executeRawUnsafe(sql);
      });
    for (const table of ["Answer", "AuditEntry", "Edition", "EditionApproval", "Proposal", "RestNeedEvent"])
      await expect(force(`DELETE FROM "${table}"`)).rejects.toThrow(/never changed or deleted/);
    await age(31);
    // Of this piece, but not of others; and never a change.
    const other = await bringBusyDesk();
    await expect(force(`DELETE FROM "AuditEntry" WHERE "pieceId" = '${other.pieceId}'`)).rejects.toThrow(
      /never changed or deleted/,
    );
    await expect(force(`UPDATE "AuditEntry" SET "what" = 'x'`)).rejects.toThrow(/never changed or deleted/);
    await expect(force(`TRUNCATE "AuditEntry"`)).rejects.toThrow(/never changed or deleted/);
  });

  /** How many rows of each table name the piece, whatever tables there are. */
  async function countRows(pieceId: string): Promise<Record<string, number>> {
    const tables = await database().$queryRaw<{ table: string }[]>`
      SELECT table_name AS "table" FROM information_schema.columns
      WHERE table_schema = 'public' AND column_name = 'pieceId'`;
    const counts: Record<string, number> = {};
    for (const { table } of tables) {
      const sql = `SELECT count(*)::int AS count FROM "${table}" WHERE "pieceId" = $1`;
      const [row] = await database().$queryRawUnsafe<{ count: number }[]>(sql, pieceId);
      counts[table] = row?.count ?? 0;
    }
    return { ...counts, Piece: await database().piece.count({ where: { id: pieceId } }) };
  }
});

test("an account that comes to a piece by bringing it in is no stranger to it", async () => {
  const { bytes } = valued(await exportPiece(desk.pianist, desk.pieceId));
  const newcomer = await bringPerson("Somebody Else");
  valued(await importPiece(newcomer, { who: "new soloist" }, bytes));
  expect(await listPieces(newcomer)).toMatchObject([{ myRole: "soloist", lastEdition: 1 }]);
  expect(await listPieces(desk.pianist)).toHaveLength(1);
});
