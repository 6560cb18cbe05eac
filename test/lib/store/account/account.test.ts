import { strFromU8, unzipSync } from "fflate";
import { beforeEach, describe, expect, test } from "vitest";
import { accountSchema, programmesSchema, writtenInPieceSchema } from "@/lib/archive/account-archive";
import { changePassword } from "@/lib/store/account/change-password";
import { exportAccount } from "@/lib/store/account/export-account";
import { nameByRole, removeAccount } from "@/lib/store/account/remove-account";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { hashPassword } from "@/lib/store/auth/password";
import { readSession, startSession } from "@/lib/store/auth/session";
import { signIn } from "@/lib/store/auth/sign-in";
import { database } from "@/lib/store/database";
import { listDeletedPieces } from "@/lib/store/deletion/list-deleted-pieces";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readInvitation } from "@/lib/store/invitations/read-invitation";
import { createPiece } from "@/lib/store/pieces/create-piece";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { type BusyDesk, bringBusyDesk } from "@/test/app/strangers/desk";
import { kindOf, openStoreForFile, valued } from "../duo";
import { duoSource } from "../duo-source";

const password = "a password of ten letters";
openStoreForFile();
let desk: BusyDesk;
beforeEach(async () => {
  await database().rateWindow.deleteMany();
  desk = await bringBusyDesk();
  const passwordHash = await hashPassword(password);
  await database().user.update({ where: { id: desk.pianist.userId }, data: { passwordHash } });
});

const emailOf = async () =>
  (await database().user.findUniqueOrThrow({ where: { id: desk.pianist.userId } })).email;

describe("the password", () => {
  test("is changed by who knows it, and every other device is signed out", async () => {
    const [here, elsewhere] = [
      await startSession(desk.pianist.userId),
      await startSession(desk.pianist.userId),
    ];
    const input = { password, newPassword: "another of ten letters" };
    const wrong = { ...input, password: "not this one" };
    expect(kindOf(await changePassword(desk.pianist, wrong, here.token))).toBe("not-allowed");
    expect(kindOf(await changePassword(desk.pianist, { ...input, newPassword: "short" }, null))).toBe(
      "invalid-input",
    );
    expect(await readSession(elsewhere.token)).not.toBeNull();
    valued(await changePassword(desk.pianist, input, here.token));
    expect([await readSession(here.token), await readSession(elsewhere.token)]).toMatchObject([{}, null]);
    const email = await emailOf();
    expect(kindOf(await signIn({ email, password }, "192.0.2.7"))).toBe("sign-in-failed");
    expect(kindOf(await signIn({ email, password: input.newPassword }, "192.0.2.7"))).toBe("done");
  });

  test("is not guessed at for long", async () => {
    const guess = { password: "a guess", newPassword: "another of ten letters" };
    const kinds = [];
    for (let tries = 0; tries < 11; tries += 1)
      kinds.push(kindOf(await changePassword(desk.pianist, guess, null)));
    expect(kinds.at(-1)).toBe("rate-limited");
  });
});

describe("an account that is taken along", () => {
  test("holds who one is and everything one wrote, and nothing that others did", async () => {
    const files = unzipSync(valued(await exportAccount(desk.soloist)));
    const json = (name: string) => JSON.parse(strFromU8(files[name]!));
    const account = accountSchema.parse(json("account.json"));
    expect(account).toMatchObject({
      name: desk.soloist.name,
      memberships: [{ file: "pieces/1.json", role: "soloist", leftAt: null }],
    });
    const written = writtenInPieceSchema.parse(json("pieces/1.json"));
    // The cuts are the pianist's; she answered one, and said what rest she needs.
    expect(written.proposals).toEqual([]);
    expect(written.answers.map(({ answer }) => answer.answer)).toEqual(["agree"]);
    expect(written.needs).toHaveLength(1);
    expect(written.performances.map(({ name }) => name)).toEqual(["Recital"]);
    expect(written.editionsApproved).toMatchObject([{ number: 1, name: desk.soloist.name }]);
    expect(written.trail.every(({ by }) => by === written.me)).toBe(true);
    expect(programmesSchema.parse(json("programmes.json")).programmes).toEqual([]);
    const text = Object.values(files)
      .map((file) => strFromU8(file))
      .join("\n");
    for (const { userId } of [desk.pianist, desk.soloist, desk.coach]) expect(text).not.toContain(userId);
    expect(text).not.toContain(desk.pianist.name);
    const others = JSON.parse(
      strFromU8(unzipSync(valued(await exportAccount(desk.stranger)))["account.json"]!),
    );
    expect(others.memberships).toEqual([]);
  });

  test("is the same file each time", async () => {
    const [one, other] = [await exportAccount(desk.pianist), await exportAccount(desk.pianist)];
    expect(Buffer.compare(valued(one), valued(other))).toBe(0);
  });
});

describe("an account that is removed", () => {
  const remove = async (names: "keep" | "replace") =>
    valued(await removeAccount(desk.pianist, { password, names }));

  test("needs the password", async () => {
    for (const input of [{ password: "not this one", names: "keep" }, { names: "keep" }, { password }])
      expect(kindOf(await removeAccount(desk.pianist, input))).not.toBe("done");
    expect(await listPieces(desk.pianist)).toHaveLength(1);
  });

  test("is gone with its address, its password, its sessions and its links", async () => {
    const email = await emailOf();
    const { token } = await startSession(desk.pianist.userId);
    await remove("keep");
    expect(await readSession(token)).toBeNull();
    expect(kindOf(await signIn({ email, password }, "192.0.2.7"))).toBe("sign-in-failed");
    expect(kindOf(await signIn({ email: await emailOf(), password: "" }, "192.0.2.7"))).not.toBe("done");
    expect(await database().user.findUniqueOrThrow({ where: { id: desk.pianist.userId } })).toMatchObject({
      ...{ name: desk.pianist.name, passwordHash: "", wantsDigest: false, removedAt: expect.any(Date) },
    });
    expect(await listPieces(desk.pianist)).toEqual([]);
    expect(kindOf(await readInvitation(desk.invitation.token, "192.0.2.1"))).toBe("not-found");
    // The address is free for whoever owns it.
    await database().user.create({ data: { email, name: "Somebody", passwordHash: "none" } });
  });

  test("leaves what was agreed, by whom and when, and the piece to the other player", async () => {
    const before = valued(await listEditions(desk.soloist, desk.pieceId));
    await remove("keep");
    expect(valued(await listEditions(desk.soloist, desk.pieceId))).toEqual(before);
    const piece = valued(await readPiece(desk.soloist, desk.pieceId));
    expect(piece.formerMembers.map(({ name }) => name)).toEqual([desk.pianist.name]);
    expect(
      valued(await listProposals(desk.soloist, desk.pieceId)).map(({ proposedBy }) => proposedBy),
    ).toContain(desk.pianist.userId);
    expect(kindOf(await exportPiece(desk.soloist, desk.pieceId))).toBe("done");
  });

  test("is called by its role where the person wants that, but not under a frozen edition", async () => {
    await remove("replace");
    const piece = valued(await readPiece(desk.soloist, desk.pieceId));
    expect(piece.formerMembers.map(({ name }) => name)).toEqual(["the pianist"]);
    const [edition] = valued(await listEditions(desk.soloist, desk.pieceId));
    expect(edition?.approvals.map(({ name }) => name)).toContain(desk.pianist.name);
  });

  test("takes a piece with it to which nobody else belongs", async () => {
    const file = { fileName: "alone.musicxml", bytes: duoSource({ title: "Alone" }) };
    const alone = valued(await createPiece(desk.pianist, { role: "pianist" }, file));
    await remove("keep");
    const deleted = await database().piece.findMany({ where: { deletedAt: { not: null } } });
    expect(deleted.map(({ id }) => id)).toContain(alone.pieceId);
    expect(deleted.map(({ id }) => id)).not.toContain(desk.pieceId);
    expect(await listDeletedPieces(desk.pianist)).toEqual([]);
  });
});

test.each([
  [["pianist"], "the pianist"],
  [["soloist", "soloist"], "the soloist"],
  [["pianist", "coach"], "a former member"],
  [[], "a former member"],
] as const)("somebody who was %j is called %s", (roles, name) => {
  expect(nameByRole(roles)).toBe(name);
});
