import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import { writePieceArchive } from "@/lib/archive/write-piece-archive";
import { inspectPiece } from "@/lib/inspect/inspect-piece";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { importPiece, lookIntoPieceFile } from "@/lib/store/archive/import-piece";
import { signIn } from "@/lib/store/auth/sign-in";
import { database } from "@/lib/store/database";
import { listCandidates } from "@/lib/store/digest/list-candidates";
import { listEditions } from "@/lib/store/editions/list-editions";
import { acceptInvitation } from "@/lib/store/invitations/accept-invitation";
import { invite } from "@/lib/store/invitations/invite";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { readRoomHistory } from "@/lib/store/room/read-room-history";
import type { Viewer } from "@/lib/store/viewer";
import { loadDemo } from "@/seed/load-demo";
import { buildPieceArchive, pieceParts } from "@/test/builders/build-piece-archive";
import { bringPerson, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();
let nerys: Viewer;
let pieceId: string;
let bytes: Uint8Array;
beforeAll(async () => {
  const password = "a password for the demo";
  await loadDemo(password);
  nerys = valued(await signIn({ email: "nerys@example.org", password }, "192.0.2.7"));
  pieceId = (await listPieces(nerys))[0]?.id ?? "";
  bytes = valued(await exportPiece(nerys, pieceId)).bytes;
});

const filesOf = (archive: Uint8Array) => Object.entries(unzipSync(archive));

describe("the demo, taken along", () => {
  test("names nobody's address, account or password", async () => {
    const text = filesOf(bytes)
      .filter(([name]) => !name.startsWith("sources/"))
      .map(([, file]) => strFromU8(file))
      .join("\n");
    expect(text).toContain("Nerys Quill");
    for (const { id, email, passwordHash } of await database().user.findMany())
      for (const secret of [id, email, passwordHash]) expect(text).not.toContain(secret);
    expect(text).not.toContain(pieceId);
    const select = { id: true } as const;
    const ids = await Promise.all([
      database().proposal.findMany({ select }),
      database().restNeed.findMany({ select }),
      database().performance.findMany({ select }),
      database().edition.findMany({ select }),
      database().member.findMany({ select }),
    ]);
    for (const { id } of ids.flat()) expect(text).not.toContain(id);
  });

  test.each(["p1", "p2"])("is the same file when %s brought it in and takes it away again", async (who) => {
    const another = await bringPerson("Somebody of another name");
    const brought = valued(await importPiece(another, { who }, bytes));
    const again = valued(await exportPiece(another, brought.pieceId));
    expect(Buffer.compare(again.bytes, bytes)).toBe(0);
  });

  test("holds the newest edition for both players on paper, the same to the byte wherever it is taken from", async () => {
    const withPages = valued(await exportPiece(nerys, pieceId, { withPages: true })).bytes;
    const files = unzipSync(withPages);
    const names = Object.keys(files).filter((name) => name.startsWith("pages/"));
    expect(names).toEqual(["pages/edition-1-pianist.pdf", "pages/edition-1-soloist.pdf"]);
    for (const name of names) expect(strFromU8(files[name]!.slice(0, 5))).toBe("%PDF-");
    const hashOf = (archive: Uint8Array) => JSON.parse(strFromU8(unzipSync(archive)["piece.json"]!)).hash;
    expect(hashOf(withPages)).toBe(hashOf(bytes));
    const another = await bringPerson("Yvo Lindqvist");
    const brought = valued(await importPiece(another, { who: "p2" }, withPages));
    const again = valued(await exportPiece(another, brought.pieceId, { withPages: true }));
    expect(Buffer.compare(again.bytes, withPages)).toBe(0);
    // Nothing that could not be printed again is lost with them.
    expect(Buffer.compare(valued(await exportPiece(another, brought.pieceId)).bytes, bytes)).toBe(0);
    const other = { ...files, [names[0]!]: files[names[1]!]! };
    expect(valued(await lookIntoPieceFile(another, new Uint8Array(zipSync(other)))).isWhole).toBe(false);
  });

  test("comes in with its editions as they were, and with people who are names", async () => {
    const another = await bringPerson("Ottla Fenn");
    const brought = valued(await importPiece(another, { who: "p1" }, bytes)).pieceId;
    const before = valued(await listEditions(nerys, pieceId));
    const after = valued(await listEditions(another, brought));
    const facts = after.map(({ number, hash, previousHash, frozenAt, approvals }) => ({
      ...{ number, hash, previousHash, frozenAt },
      approvals: approvals.map(({ name, role, at }) => ({ name, role, at })),
    }));
    expect(before).toMatchObject(facts);
    expect(facts[0]?.approvals.map(({ name }) => name)).toEqual(["Nerys Quill", "Matthis Orban"]);
    const piece = valued(await readPiece(another, brought));
    expect(piece.members.map(({ name, role }) => [name, role])).toEqual([["Ottla Fenn", "pianist"]]);
    expect(piece.formerMembers.map(({ name, role }) => [name, role])).toEqual([
      ["Matthis Orban", "soloist"],
      ["Dagny Thorsell", "coach"],
    ]);
    // Nobody signs in as a name, nothing is sent to one, and the real people have nothing to do with it.
    for (const { userId } of piece.formerMembers) {
      const user = await database().user.findUniqueOrThrow({ where: { id: userId } });
      expect(kindOf(await signIn({ email: user.email, password: "" }, "192.0.2.8"))).not.toBe("done");
      expect(kindOf(await signIn({ email: user.email, password: "none" }, "192.0.2.8"))).not.toBe("done");
    }
    expect((await listCandidates(new Date())).filter((one) => one.pieceId === brought)).toEqual([]);
    expect(await listPieces(nerys)).toHaveLength(1);
    // Who wrote what and when is told as before.
    const told = async (viewer: Viewer, id: string) => {
      const { changes } = valued(await readRoomHistory(viewer, id));
      const people = [...valued(await readPiece(viewer, id)).members, ...piece.formerMembers];
      const nameOf = (userId: string | null) => people.find((one) => one.userId === userId)?.name;
      return new Map(
        changes.map(({ map, key, at, userId }) => [`${map} ${key}`, `${at} ${nameOf(userId)}`] as const),
      );
    };
    const [there, here] = [await told(nerys, pieceId), await told(another, brought)];
    expect(here.size).toBeGreaterThan(3);
    for (const [place, line] of there)
      expect(here.get(place)).toBe(line.replace("Nerys Quill", "Ottla Fenn"));
  });

  test("goes on: the real soloist comes in by a link, and an answer of theirs is theirs", async () => {
    const another = await bringPerson("Ottla Fenn");
    const brought = valued(await importPiece(another, { who: "p1" }, bytes)).pieceId;
    const soloist = await bringPerson("Matthis Orban");
    const { token } = valued(await invite(another, brought, { role: "soloist" }));
    valued(await acceptInvitation(soloist, token));
    const open = valued(await listProposals(another, brought)).find(({ state }) => state === "open");
    expect(open?.proposedBy).not.toBe(soloist.userId);
    valued(
      await answerProposal(another, brought, {
        ...{ proposalId: open?.id, answer: "agree", termsHash: open?.termsHash },
      }),
    );
    const again = inspectPiece(valued(await exportPiece(soloist, brought)).bytes);
    if (!again.ok) throw new Error("not read");
    expect(again.value.isWhole).toBe(true);
    const { people } = again.value.read.piece;
    expect(people.map(({ key, name, role }) => [key, name, role])).toEqual([
      ["p1", "Nerys Quill", "pianist"],
      ["p2", "Matthis Orban", "soloist"],
      ["p3", "Dagny Thorsell", "coach"],
      ["p4", "Matthis Orban", "soloist"],
    ]);
  });

  test("comes in with a player who is none of its people, too", async () => {
    const another = await bringPerson("Ottla Fenn");
    const brought = valued(await importPiece(another, { who: "new soloist" }, bytes)).pieceId;
    const piece = valued(await readPiece(another, brought));
    expect([piece.members.length, piece.formerMembers.length, piece.myRole]).toEqual([1, 3, "soloist"]);
    expect(inspectPiece(valued(await exportPiece(another, brought)).bytes)).toMatchObject({
      value: { isWhole: true },
    });
  });

  test("does not come in with somebody who is nobody in it, nor with a coach alone", async () => {
    const another = await bringPerson("Ottla Fenn");
    for (const who of ["p3", "p9", "", "new coach", null, { not: "" }])
      expect(kindOf(await importPiece(another, { who }, bytes))).toBe("invalid-input");
    expect(await listPieces(another)).toEqual([]);
  });

  test("does not come in when anything in it was changed, and every fault is told with its file", async () => {
    const another = await bringPerson("Ottla Fenn");
    const people = await database().user.count();
    const changed = (name: string, change: (text: string) => string) =>
      zipSync({ ...unzipSync(bytes), [name]: strToU8(change(strFromU8(unzipSync(bytes)[name]!))) });
    const broken = changed("proposals.json", (text) => text.replace('"agreed"', '"declined"'));
    const looked = valued(await lookIntoPieceFile(another, broken));
    expect(looked).toMatchObject({
      isWhole: false,
      faults: [
        "proposals.json was changed after it was packed.",
        "proposals.json is not the file that piece.json names.",
      ],
    });
    const refused = await importPiece(another, { who: "p1" }, broken);
    expect(refused).toMatchObject({ ok: false, problem: { kind: "invalid-input" } });
    expect(await listPieces(another)).toEqual([]);
    expect(await database().user.count()).toBe(people);
  });
});

describe("any piece", () => {
  test("law: brought in and taken away again it is the same file", async () => {
    const another = await bringPerson("Ottla Fenn");
    await fc.assert(
      fc.asyncProperty(pieceParts, async (parts) => {
        await database().rateWindow.deleteMany();
        const packed = writePieceArchive(buildPieceArchive(parts));
        const brought = valued(await importPiece(another, { who: "p2" }, packed));
        const again = valued(await exportPiece(another, brought.pieceId));
        expect(Buffer.compare(again.bytes, packed)).toBe(0);
      }),
      { numRuns: 15 },
    );
  }, 600_000);
});
