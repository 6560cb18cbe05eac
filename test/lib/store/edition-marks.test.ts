import { beforeEach, describe, expect, test } from "vitest";
import { hashEdition, writeEditionContent } from "@/lib/edition/edition-content";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import { hashMarks } from "@/lib/room/hash-marks";
import { readStandingMarks } from "@/lib/room/standing-marks";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { comparePieceEditions } from "@/lib/store/editions/compare-piece-editions";
import { endOvertakenApprovals } from "@/lib/store/editions/end-overtaken-approvals";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { withdrawApproval } from "@/lib/store/editions/withdraw-approval";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { breathOf, commentOf, cueOf } from "@/test/lib/room/room-records";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, proposed, valued } from "./duo";
import { RoomOfDuo } from "./room/room-of-duo";

openStoreForFile();
let duo: Duo;
let room: RoomOfDuo;
beforeEach(async () => {
  duo = await bringDuo();
  room = new RoomOfDuo(duo);
});

const asPianist = () => ({ ...duo.pianist, role: "pianist" as const });
const asSoloist = () => ({ ...duo.soloist, role: "soloist" as const });
const writeBreath = (id: string, barIndex: number) =>
  room.write(duo.soloist, "soloist", "breaths", breathOf(asSoloist(), id, barIndex));
const takeBreathOff = (id: string, barIndex: number) => {
  const deletedAt = "2026-11-25T08:30:00.000Z";
  return room.write(duo.soloist, "soloist", "breaths", { ...breathOf(asSoloist(), id, barIndex), deletedAt });
};
const working = async (person: Person = duo.pianist) => valued(await readWorkingEdition(person, duo.pieceId));
const approve = async (person: Person, hash?: string) =>
  approveEdition(person, duo.pieceId, { hash: hash ?? (await working()).hash });
const place = (barIndex: number, offset = "0") => ({ barIndex, offset });

describe("what stands in the room is a part of the edition", () => {
  test("breaths, cues and printed comments, each once, in the order of the page, as the log has them", async () => {
    await writeBreath("b1", 12);
    await room.write(duo.pianist, "pianist", "breaths", breathOf(asPianist(), "b2", 12));
    await writeBreath("b3", 5);
    await writeBreath("b4", 7);
    await takeBreathOff("b4", 7);
    // The end of a bar is the start of the next.
    await room.write(duo.soloist, "soloist", "breaths", {
      ...breathOf(asSoloist(), "b5", 4),
      at: place(4, "4"),
    });
    await room.write(duo.pianist, "pianist", "cues", cueOf(asPianist(), "k1", 9));
    await room.write(duo.soloist, "soloist", "cues", cueOf(asSoloist(), "k2", 3, { text: "Ob. solo" }));
    await room.write(duo.pianist, "pianist", "comments", commentOf(asPianist(), "c1", { print: true }));
    await room.write(duo.pianist, "pianist", "comments", commentOf(asPianist(), "c2", { text: "Only talk" }));
    const { content, hash, marksHash } = await working();
    expect(content).toMatchObject({
      schema: 2,
      breaths: [{ at: place(5) }, { at: place(12) }],
      cues: [
        { at: place(3), text: "Ob. solo" },
        { at: place(9), text: "Fl." },
      ],
      rewrites: [],
      remarks: [{ from: place(12), to: place(15), text: "Wait for the breath", by: "Ilse Brandow" }],
    });
    expect(hash).toBe(hashEdition(content));
    expect(marksHash).toBe(hashMarks(readStandingMarks(room.doc)));
    valued(await approve(duo.pianist));
    const { frozen } = valued(await approve(duo.soloist));
    expect(frozen).toMatchObject({ content, hash, rendererVersion: engraverVersion });
  });

  test("also from a snapshot of the log and what came after it", async () => {
    await writeBreath("b1", 12);
    expect(await takeRoomSnapshot(duo.pieceId)).toMatchObject({ kind: "taken" });
    await writeBreath("b2", 5);
    expect((await working()).content.breaths).toEqual([{ at: place(5) }, { at: place(12) }]);
  });

  test("what lies on no bar of the piece is left out, and what lies in a cut is kept", async () => {
    const { id, termsHash } = await proposed(duo, 9, 15);
    valued(await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }));
    await writeBreath("b1", 10);
    await writeBreath("b2", 400);
    await room.write(duo.soloist, "soloist", "breaths", {
      ...breathOf(asSoloist(), "b3", 4),
      at: place(4, "9"),
    });
    expect((await working()).content.breaths).toEqual([{ at: place(10) }]);
  });

  test("letters that would rearrange a page are taken out of its words", async () => {
    const cue = cueOf(asPianist(), "k1", 9, { text: "Fl.\u202e solo\u0007" });
    await room.write(duo.pianist, "pianist", "cues", cue);
    expect((await working()).content.cues).toEqual([{ at: place(9), text: "Fl. solo" }]);
  });

  test("a log that is not whole is refused, never taken for an empty room", async () => {
    await writeBreath("b1", 12);
    await database().piece.update({ where: { id: duo.pieceId }, data: { roomSequence: 2 } });
    await expect(readWorkingEdition(duo.pianist, duo.pieceId)).rejects.toThrow(/not whole/);
    expect(await database().approval.count({ where: { pieceId: duo.pieceId } })).toBe(0);
  });

  test("readers see nothing of it before it is frozen", async () => {
    await writeBreath("b1", 12);
    const read = await working(duo.reader);
    expect(read).toMatchObject({ content: { breaths: [] }, lastApprovals: [], marksHash: "" });
    expect(read.hash).toBe(hashEdition(read.content));
  });
});

describe("a yes", () => {
  test("to what stood before a breath was written is refused and over; what stands now is agreed to anew", async () => {
    const before = await working();
    valued(await approve(duo.pianist));
    await writeBreath("b1", 12);
    expect(kindOf(await approve(duo.soloist, before.hash))).toBe("stale-terms");
    const { approvals, lastApprovals } = await working();
    expect(approvals).toEqual([]);
    expect(lastApprovals).toMatchObject([
      { userId: duo.pianist.userId, hash: before.hash, content: before.content, isEnded: true },
    ]);
    expect(valued(await approve(duo.soloist)).frozen).toBeNull();
    const rows = await database().approval.findMany({
      where: { pieceId: duo.pieceId },
      orderBy: { at: "asc" },
    });
    expect(rows.map(({ userId, endedAt }) => [userId, endedAt !== null])).toEqual([
      [duo.pianist.userId, true],
      [duo.soloist.userId, false],
    ]);
    expect(rows.map(({ content }) => content)).toEqual([
      writeEditionContent(before.content),
      writeEditionContent((await working()).content),
    ]);
  });

  test("that the room has overtaken is ended, and stays ended when the breath is taken off again", async () => {
    const { hash } = await working();
    valued(await approve(duo.pianist));
    expect(await endOvertakenApprovals(duo.pieceId)).toBe(0);
    await writeBreath("b1", 12);
    expect(await endOvertakenApprovals(duo.pieceId)).toBe(1);
    await takeBreathOff("b1", 12);
    expect(await working()).toMatchObject({ hash, approvals: [] });
  });

  test("is over once somebody was refused, also when what it was given to comes to stand again", async () => {
    const { hash } = await working();
    valued(await approve(duo.pianist));
    await writeBreath("b1", 12);
    expect(kindOf(await approve(duo.soloist, hash))).toBe("stale-terms");
    await takeBreathOff("b1", 12);
    expect(await working()).toMatchObject({ hash, approvals: [] });
    expect(valued(await approve(duo.soloist, hash)).frozen).toBeNull();
  });

  test("that was taken back says so", async () => {
    valued(await approve(duo.pianist));
    valued(await withdrawApproval(duo.pianist, duo.pieceId));
    expect((await working()).lastApprovals).toMatchObject([{ isEnded: true, isTakenBack: true }]);
    valued(await approve(duo.pianist));
    expect((await working()).lastApprovals).toMatchObject([{ isEnded: false, isTakenBack: false }]);
  });
});

test("an edition of the first schema with the same music leaves nothing to freeze; a breath does", async () => {
  const content = writeEditionContent({ ...(await working()).content, schema: 1 });
  const hash = hashEdition({ ...(await working()).content, schema: 1 });
  await database().edition.create({ data: { pieceId: duo.pieceId, number: 1, content, hash } });
  expect(await working()).toMatchObject({
    ...{ number: 2, canFreeze: false, whyNot: "Nothing has changed since № 1." },
  });
  await writeBreath("b1", 12);
  expect(await working()).toMatchObject({ canFreeze: true, whyNot: null });
  const told = valued(await comparePieceEditions(duo.pianist, duo.pieceId, 1, "working"));
  expect(told.map(({ sentence }) => sentence)).toEqual(["Breath added at the end of bar 12."]);
});
