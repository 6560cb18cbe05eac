import { strFromU8, unzipSync } from "fflate";
import { beforeEach, describe, expect, test } from "vitest";
import { usualHands } from "@/lib/hands/hands-profile";
import { removeAccount } from "@/lib/store/account/remove-account";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { importPiece } from "@/lib/store/archive/import-piece";
import { hashPassword } from "@/lib/store/auth/password";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { deletePiece } from "@/lib/store/deletion/delete-piece";
import { purgeDeletedPieces } from "@/lib/store/deletion/purge-deleted-pieces";
import { listEditions } from "@/lib/store/editions/list-editions";
import { setHands } from "@/lib/store/hands/set-hands";
import { listCueHints } from "@/lib/store/hints/list-cue-hints";
import { setCueHint } from "@/lib/store/hints/set-cue-hint";
import { branchPiece } from "@/lib/store/pieces/branch-piece";
import { logPractice } from "@/lib/store/practice/log-practice";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";
import { bringDuo, bringPerson, type Duo, kindOf, openStoreForFile, practiceOf, valued } from "../duo";
import { agreed, asking, frozen, kept, seenBy, standing, yesTo } from "./duo-rewrites";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  await database().rateWindow.deleteMany();
  duo = await bringDuo();
});

/** Rewrites of every kind, some of them frozen, with hints. */
async function bringEverything(): Promise<void> {
  const told = await kept(duo, "told", 2, { reason: "too wide" });
  await agreed(duo, 4, { to: 5 });
  await frozen(duo);
  const off = await kept(duo, "told", 7);
  valued(await takeOffRewrite(duo.pianist, duo.pieceId, { rewriteId: off.id, reason: "it lies well" }));
  const declined = await kept(duo, "asked", 9);
  const { id: proposalId } = asking(declined);
  const no = { proposalId, answer: "decline", termsHash: declined.termsHash, reason: "I need it." };
  valued(await answerProposal(duo.soloist, duo.pieceId, no));
  await kept(duo, "only_me", 11);
  const draft = await kept(duo, "only_me", 2, { step: "A", replaces: told.id });
  await kept(duo, "told", 2, { step: "B", replaces: draft.id });
  await kept(duo, "asked", 13);
  for (const text of ["round", "rounder"])
    valued(await setCueHint(duo.soloist, duo.pieceId, { instrument: "Cor.", text }));
}

describe("a piece with rewrites, taken along", () => {
  test("comes in with all that was shared, and goes out again as the same file", async () => {
    await bringEverything();
    const { bytes } = valued(await exportPiece(duo.soloist, duo.pieceId));
    // As the edition is played: a small staff over the bars that are rewritten.
    const played = strFromU8(unzipSync(bytes)["editions/1/played.musicxml"]!);
    expect(played.match(/<staff-type>ossia<\/staff-type>/g)).toHaveLength(1);
    const another = await bringPerson("Ottla Fenn");
    for (const who of ["p1", "p2"]) {
      const brought = valued(await importPiece(another, { who }, bytes)).pieceId;
      const again = valued(await exportPiece(another, brought)).bytes;
      expect(Buffer.compare(again, bytes)).toBe(0);
      const there = { ...duo, pieceId: brought, soloist: another };
      expect(await seenBy(there, another)).toEqual(await seenBy(duo, duo.soloist));
      expect(await standing(there)).toEqual(await standing(duo));
      const frozenIn = async (pieceId: string, person: typeof another) =>
        valued(await listRewrites(person, pieceId)).map(({ frozenInEditions, earlier }) => [
          frozenInEditions,
          earlier.length,
        ]);
      expect(await frozenIn(brought, another)).toEqual(await frozenIn(duo.pieceId, duo.soloist));
      expect(valued(await listEditions(another, brought)).map(({ hash }) => hash)).toEqual(
        valued(await listEditions(duo.soloist, duo.pieceId)).map(({ hash }) => hash),
      );
      expect(valued(await listCueHints(another, brought)).map(({ text }) => text)).toEqual([
        "rounder",
        "round",
      ]);
    }
    // The soloist came in once as the soloist: one answer is asked of them there.
    expect((await listWaiting(another)).filter(({ kind }) => kind === "rewrite")).toHaveLength(1);
  });

  test("has no file for rewrites or hints where there are none, as those from before", async () => {
    await kept(duo, "only_me", 2);
    const files = unzipSync(valued(await exportPiece(duo.pianist, duo.pieceId)).bytes);
    const names = Object.keys(files).filter((name) => !name.includes("/"));
    expect(names.sort()).toEqual([
      ...["README.txt", "approvals.json", "manifest.json", "performances.json", "piece.json"],
      ...["proposals.json", "rest-needs.json", "room.json", "trail.json"],
    ]);
    expect(strFromU8(files["proposals.json"]!)).toBe('{"proposals":[],"schema":1}');
  });
});

describe("the same music for another occasion", () => {
  const branch = async () => {
    const asked = { name: "Recital", thisName: "Jury", editionNumber: null, limitSeconds: null };
    return valued(await branchPiece(duo.pianist, duo.pieceId, asked)).pieceId;
  };

  test("begins with what is told, asks again about what was agreed, and leaves the rest behind", async () => {
    await bringEverything();
    valued(await logPractice(duo.pianist, duo.pieceId, practiceOf(duo)));
    const there = { ...duo, pieceId: await branch() };
    expect(await seenBy(there, duo.soloist)).toEqual(["1 told*", "2 asked"]);
    expect(await seenBy(there, duo.pianist)).toEqual(["1 told*", "2 asked"]);
    expect(await database().practiceEntry.count({ where: { pieceId: there.pieceId } })).toBe(0);
    const asked = valued(await listRewrites(duo.soloist, there.pieceId))[1];
    if (!asked) throw new Error("nothing is asked");
    valued(await yesTo(there, asked));
    expect((await standing(there)).map(({ from }) => from.barIndex)).toEqual([2, 4]);
    expect(kindOf(await exportPiece(duo.soloist, there.pieceId))).toBe("done");
    // What is decided there is nothing to the piece it came from.
    expect(await seenBy(duo, duo.soloist)).toContain("2 asked*");
  });
});

test("a deleted piece goes with every rewrite, event, hint and entry of it, and no other", async () => {
  await bringEverything();
  valued(await logPractice(duo.pianist, duo.pieceId, practiceOf(duo)));
  const other = await bringDuo();
  await kept(other, "told", 2);
  valued(await deletePiece(duo.pianist, duo.pieceId, { title: "Concertino" }));
  const later = new Date(Date.now() + 31 * 24 * 60 * 60 * 1000);
  await database().$executeRaw`
    UPDATE "Piece" SET "deletedAt" = now() - interval '31 days' WHERE "id" = ${duo.pieceId}`;
  expect(await runAt(later, purgeDeletedPieces)).toBe(1);
  const where = { pieceId: duo.pieceId };
  const rewrite = where;
  expect(
    await Promise.all([
      database().rewrite.count({ where }),
      database().rewriteEvent.count({ where: { rewrite } }),
      database().editionRewrite.count({ where: { rewrite } }),
      database().practiceEntry.count({ where }),
      database().cueHint.count({ where }),
      database().rewrite.count({ where: { pieceId: other.pieceId } }),
    ]),
  ).toEqual([0, 0, 0, 0, 0, 1]);
});

test("an account that is removed leaves what it shared, and nothing that nobody else saw", async () => {
  await bringEverything();
  valued(await setHands(duo.pianist, { profile: { ...usualHands, leaps: 1.2 } }));
  valued(await logPractice(duo.pianist, duo.pieceId, practiceOf(duo)));
  const before = await seenBy(duo, duo.soloist);
  const password = "a password of ten letters";
  await database().user.update({
    where: { id: duo.pianist.userId },
    data: { passwordHash: await hashPassword(password) },
  });
  valued(await removeAccount(duo.pianist, { password, names: "replace" }));
  expect(await seenBy(duo, duo.soloist)).toEqual(before);
  const mine = { authorId: duo.pianist.userId, sharing: "only_me" } as const;
  expect(await database().rewrite.count({ where: mine })).toBe(0);
  expect(await database().practiceEntry.count({ where: { userId: duo.pianist.userId } })).toBe(0);
  expect(await database().user.findUnique({ where: { id: duo.pianist.userId } })).toMatchObject({
    ...{ hands: null, handsChangedAt: null },
  });
  expect(kindOf(await exportPiece(duo.soloist, duo.pieceId))).toBe("done");
});
