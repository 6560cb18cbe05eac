import { beforeEach, describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { readBreaths } from "@/lib/room/read-breaths";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { branchPiece } from "@/lib/store/pieces/branch-piece";
import { listOccasions } from "@/lib/store/pieces/list-occasions";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { nameOccasion } from "@/lib/store/pieces/name-occasion";
import { readCommonStart } from "@/lib/store/pieces/read-common-start";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { listRestNeeds } from "@/lib/store/rests/list-rest-needs";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import { releaseRestNeed } from "@/lib/store/rests/release-rest-need";
import { removeRestNeed } from "@/lib/store/rests/remove-rest-need";
import { mergeRoomLog } from "@/lib/store/room/merge-room-log";
import { breathOf, commentOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, kindOf, openStoreForFile, proposed, restOf, valued } from "./duo";
import { RoomOfDuo } from "./room/room-of-duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const asked = { name: "Recital", thisName: "Jury", editionNumber: null, limitSeconds: 900 };
const branch = (input: Partial<typeof asked> | { editionNumber: number } = {}) =>
  branchPiece(duo.pianist, duo.pieceId, { ...asked, ...input });

async function freezeWithCut(): Promise<void> {
  const { id, termsHash } = await proposed(duo, 9, 15);
  const yes = { proposalId: id, answer: "agree", termsHash };
  valued(await answerProposal(duo.soloist, duo.pieceId, yes));
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  for (const player of [duo.pianist, duo.soloist])
    valued(await approveEdition(player, duo.pieceId, { hash }));
}

describe("a branch for another occasion", () => {
  test("is a piece of its own, of the same music, with the players and the coach", async () => {
    const settings = { ...printedTempo, fermataFactor: 2 };
    valued(await setTempoSettings(duo.soloist, duo.pieceId, { settings }));
    const { pieceId } = valued(await branch());
    const [mother, child] = [
      valued(await readPiece(duo.soloist, duo.pieceId)),
      valued(await readPiece(duo.soloist, pieceId)),
    ];
    expect([mother.occasion, child.occasion]).toEqual(["Jury", "Recital"]);
    expect(child).toMatchObject({ title: mother.title, limitSeconds: 900, settings });
    expect(child.source).toMatchObject({ hash: mother.source.hash, partRoles: mother.source.partRoles });
    expect(child.members.map(({ userId, role }) => [userId, role])).toEqual([
      [duo.pianist.userId, "pianist"],
      [duo.soloist.userId, "soloist"],
      [duo.coach.userId, "coach"],
    ]);
    expect(valued(await readPieceScore(duo.coach, pieceId)).score).toEqual(
      valued(await readPieceScore(duo.coach, duo.pieceId)).score,
    );
    expect(valued(await listProposals(duo.pianist, pieceId))).toEqual([]);
  });

  test("from an edition: its cuts wait there for the other player, and nothing is agreed", async () => {
    await freezeWithCut();
    const { pieceId } = valued(await branch({ editionNumber: 1 }));
    const [cut, ...others] = valued(await listProposals(duo.soloist, pieceId));
    expect(others).toEqual([]);
    expect(cut).toMatchObject({ number: 1, state: "open", proposedBy: duo.pianist.userId });
    const waiting = (await listWaiting(duo.soloist)).filter((one) => one.pieceId === pieceId);
    expect(waiting).toMatchObject([{ kind: "proposal", pieceTitle: expect.stringContaining("Recital") }]);
    expect(valued(await readWorkingEdition(duo.pianist, pieceId))).toMatchObject({
      number: 1,
      content: { cuts: [] },
    });
    // The first piece is as it was.
    expect(valued(await listProposals(duo.soloist, duo.pieceId))).toMatchObject([{ state: "agreed" }]);
    const row = await database().piece.findUniqueOrThrow({
      where: { id: pieceId },
      select: { branchOfId: true, branchStart: { select: { pieceId: true, number: true } } },
    });
    expect(row).toEqual({ branchOfId: duo.pieceId, branchStart: { pieceId: duo.pieceId, number: 1 } });
  });

  test("the breaths that stand are in its room under their authors' names, the talk is not", async () => {
    const room = new RoomOfDuo(duo);
    const soloist = { ...duo.soloist, role: "soloist" as const };
    await room.write(duo.soloist, "soloist", "breaths", breathOf(soloist, "b1", 2));
    await room.write(duo.soloist, "soloist", "breaths", breathOf(soloist, "b2", 4));
    const deletedAt = new Date().toISOString();
    await room.write(duo.soloist, "soloist", "breaths", { ...breathOf(soloist, "b2", 4), deletedAt });
    await room.write(duo.soloist, "soloist", "comments", commentOf(soloist, "c1"));
    const { pieceId } = valued(await branch());
    const { doc, sequence } = await database().$transaction((tx) => mergeRoomLog(tx, pieceId, 1));
    expect(sequence).toBe(1);
    expect(readBreaths(doc)).toMatchObject([{ id: "b1", authorId: duo.soloist.userId }]);
    expect(doc.getMap("comments").size).toBe(0);
    // It goes on from there as every room does.
    const { roomSequence } = await database().piece.findUniqueOrThrow({ where: { id: pieceId } });
    expect(roomSequence).toBe(1);
  });

  test("the soloist's needed rests come along, what was let go as let go, what was taken off not", async () => {
    const note = async (from: number, to: number) =>
      valued(await noteRestNeed(duo.soloist, duo.pieceId, restOf(duo, from, to)));
    const [, letGo, off] = [await note(8, 16), await note(9, 14), await note(10, 12)];
    valued(await releaseRestNeed(duo.soloist, duo.pieceId, { needId: letGo.id }));
    valued(await removeRestNeed(duo.soloist, duo.pieceId, { needId: off.id }));
    const { pieceId } = valued(await branch());
    const needs = valued(await listRestNeeds(duo.coach, pieceId));
    expect(needs.map(({ notedBy, releasedBy, history }) => [notedBy, releasedBy, history.length])).toEqual([
      [duo.soloist.userId, null, 1],
      [duo.soloist.userId, duo.soloist.userId, 2],
    ]);
  });

  test("a branch of a branch stands beside both", async () => {
    const { pieceId } = valued(await branch());
    const second = { ...asked, name: "Competition", thisName: null };
    const { pieceId: third } = valued(await branchPiece(duo.soloist, pieceId, second));
    const names = ["Jury", "Recital", "Competition"];
    for (const from of [duo.pieceId, pieceId, third]) {
      const occasions = valued(await listOccasions(duo.coach, from));
      expect(occasions.map(({ name }) => name)).toEqual(names);
    }
    const mine = await listPieces(duo.pianist);
    expect(new Set(mine.map(({ music }) => music))).toEqual(new Set([duo.pieceId]));
  });
});

describe("the name of an occasion", () => {
  const name = (person: Duo["pianist"], pieceId: string, to: string, stood: string | null) =>
    nameOccasion(person, pieceId, { name: to, stood });
  const namesSeen = async (pieceId: string) =>
    valued(await listOccasions(duo.soloist, pieceId)).map((occasion) => occasion.name);

  test("is corrected by either player; what it was stays in the trail, with who and when", async () => {
    const { pieceId } = valued(await branch());
    valued(await name(duo.soloist, pieceId, " Spring  recital ", "Recital"));
    valued(await name(duo.pianist, duo.pieceId, "First round", "Jury"));
    expect(await namesSeen(pieceId)).toEqual(["First round", "Spring recital"]);
    const entries = await database().auditEntry.findMany({ where: { what: "occasion named", pieceId } });
    expect(entries).toMatchObject([
      { userId: duo.soloist.userId, about: { before: "Recital", after: "Spring recital" } },
    ]);
    // The same again is no change.
    valued(await name(duo.pianist, pieceId, "Spring recital", "Recital"));
    expect(await database().auditEntry.count({ where: { what: "occasion named", pieceId } })).toBe(1);
  });

  test("may be given to a piece that has none, and is asked for no more when it is branched", async () => {
    valued(await name(duo.pianist, duo.pieceId, "Lesson", null));
    valued(await branchPiece(duo.pianist, duo.pieceId, { ...asked, thisName: null }));
    expect(await namesSeen(duo.pieceId)).toEqual(["Lesson", "Recital"]);
  });

  test("is not that of another of them, not empty, and not written over what one has not seen", async () => {
    const { pieceId } = valued(await branch());
    for (const [to, stood, kind] of [
      ["JURY", "Recital", "conflict"],
      ["  ", "Recital", "invalid-input"],
      ["x".repeat(41), "Recital", "invalid-input"],
      ["Competition", "Jury", "stale-terms"],
    ] as const)
      expect([to, kindOf(await name(duo.pianist, pieceId, to, stood))]).toEqual([to, kind]);
    // In other letters it is still its own.
    expect(kindOf(await name(duo.pianist, pieceId, "RECITAL", "Recital"))).toBe("done");
    // Of one that one does not belong to nothing is told, not even that its name is taken.
    valued(await removeMember(duo.soloist, pieceId, { userId: duo.soloist.userId }));
    expect(kindOf(await name(duo.soloist, duo.pieceId, "Recital", "Jury"))).toBe("done");
  });

  test("is given by the players", async () => {
    for (const [person, kind] of [
      [duo.coach, "not-allowed"],
      [duo.reader, "not-allowed"],
      [duo.stranger, "not-found"],
    ] as const)
      expect(kindOf(await name(person, duo.pieceId, "Jury", null))).toBe(kind);
  });
});

describe("what two of them began with", () => {
  const startOf = async (person: Duo["pianist"], one: string, other: string) =>
    valued(await readCommonStart(person, one, other));

  test("the edition of the one that the other was made from, either way round; else the print", async () => {
    await freezeWithCut();
    const { pieceId: recital } = valued(await branch({ editionNumber: 1 }));
    const from = { ...asked, thisName: null };
    const more = async (name: string, editionNumber: number | null) =>
      valued(await branchPiece(duo.pianist, duo.pieceId, { ...from, name, editionNumber })).pieceId;
    const [prize, lesson] = [await more("Prize", 1), await more("Lesson", null)];
    const first = { pieceId: duo.pieceId, number: 1 };
    expect(await startOf(duo.coach, duo.pieceId, recital)).toMatchObject(first);
    expect(await startOf(duo.coach, recital, duo.pieceId)).toMatchObject(first);
    expect((await startOf(duo.coach, recital, prize))?.content.cuts).toHaveLength(1);
    expect(await startOf(duo.coach, recital, lesson)).toBeNull();
    expect(await startOf(duo.coach, duo.pieceId, lesson)).toBeNull();
    // Of an edition that one may not read nothing is told.
    valued(await removeMember(duo.soloist, duo.pieceId, { userId: duo.soloist.userId }));
    expect(await startOf(duo.soloist, recital, prize)).toBeNull();
    expect(kindOf(await readCommonStart(duo.soloist, recital, duo.pieceId))).toBe("not-found");
    expect(kindOf(await readCommonStart(duo.stranger, recital, prize))).toBe("not-found");
  });
});

describe("what is refused", () => {
  test.each([
    ["a name that is there already", { name: "jury" }, "conflict"],
    ["no name", { name: "  " }, "invalid-input"],
    ["no name for the first piece", { thisName: null }, "invalid-input"],
    ["an edition that is not there", { editionNumber: 3 }, "invalid-input"],
    ["a limit of nothing", { limitSeconds: 0 }, "invalid-input"],
  ])("%s", async (_name, input, kind) => {
    expect(kindOf(await branch(input as Partial<typeof asked>))).toBe(kind);
    expect(await listPieces(duo.pianist)).toHaveLength(1);
    expect(valued(await readPiece(duo.pianist, duo.pieceId)).occasion).toBeNull();
  });

  test("coach, reader and stranger make none", async () => {
    for (const [person, kind] of [
      [duo.coach, "not-allowed"],
      [duo.reader, "not-allowed"],
      [duo.stranger, "not-found"],
    ] as const)
      expect(kindOf(await branchPiece(person, duo.pieceId, asked))).toBe(kind);
  });

  test("who does not belong to the branch sees nothing of it, not even its name", async () => {
    const { pieceId } = valued(await branch());
    for (const person of [duo.reader, duo.stranger]) {
      expect(kindOf(await readPiece(person, pieceId))).toBe("not-found");
      expect(kindOf(await listOccasions(person, pieceId))).toBe("not-found");
    }
    const seen = valued(await listOccasions(duo.reader, duo.pieceId));
    expect(seen).toEqual([{ pieceId: duo.pieceId, name: "Jury", lastEdition: null }]);
    // Who leaves the branch keeps the first piece, and the name is free for this person.
    valued(await removeMember(duo.soloist, pieceId, { userId: duo.soloist.userId }));
    expect(valued(await listOccasions(duo.soloist, duo.pieceId))).toHaveLength(1);
    expect(kindOf(await branchPiece(duo.soloist, duo.pieceId, { ...asked, thisName: null }))).toBe("done");
  });
});
