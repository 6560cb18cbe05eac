import { createHash } from "node:crypto";
import { beforeEach, describe, expect, test } from "vitest";
import { hashEdition, writeEditionContent } from "@/lib/edition/edition-content";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { comparePieceEditions } from "@/lib/store/editions/compare-piece-editions";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readEdition } from "@/lib/store/editions/read-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { withdrawApproval } from "@/lib/store/editions/withdraw-approval";
import { listPerformances } from "@/lib/store/performances/list-performances";
import { logPerformance } from "@/lib/store/performances/log-performance";
import { recordRealTime } from "@/lib/store/performances/record-real-time";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { setLimit } from "@/lib/store/pieces/set-limit";
import { setPartRoles } from "@/lib/store/pieces/set-part-roles";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { reopenProposal } from "@/lib/store/proposals/reopen-proposal";
import { bringDuo, type Duo, kindOf, openStoreForFile, type Person, proposed, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const working = async () => valued(await readWorkingEdition(duo.pianist, duo.pieceId));
const approve = async (person: Person, hash?: string) =>
  approveEdition(person, duo.pieceId, { hash: hash ?? (await working()).hash });

async function agreeCut(from: number, to: number) {
  const { id, termsHash } = await proposed(duo, from, to);
  return valued(
    await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }),
  );
}

async function freeze() {
  valued(await approve(duo.pianist));
  return valued(await approve(duo.soloist)).frozen;
}

describe("freezing", () => {
  test("takes both players' yes to one hash", async () => {
    const cut = await agreeCut(9, 15);
    const first = valued(await approve(duo.pianist));
    expect(first).toMatchObject({ frozen: null, approvals: [{ userId: duo.pianist.userId }] });
    const { frozen } = valued(await approve(duo.soloist));
    expect(frozen).toMatchObject({
      number: 1,
      previousHash: null,
      content: { cuts: [cut.terms] },
      approvals: [
        { userId: duo.pianist.userId, name: "Ilse Brandow", role: "pianist" },
        { userId: duo.soloist.userId, name: "Corin Vasey", role: "soloist" },
      ],
    });
    expect(frozen?.hash).toBe(frozen && hashEdition(frozen.content));
    expect(valued(await listProposals(duo.pianist, duo.pieceId))[0]?.frozenInEditions).toEqual([1]);
  });

  test("the hash is the SHA-256 of the stored text, as the platform and Postgres compute it", async () => {
    const frozen = await freeze();
    const row = await database().edition.findFirstOrThrow({ where: { pieceId: duo.pieceId } });
    const [inSql] = await database().$queryRaw<{ hash: string }[]>`
      SELECT encode(sha256(convert_to("content", 'UTF8')), 'hex') AS hash FROM "Edition" WHERE "id" = ${row.id}`;
    expect(frozen?.hash).toBe(createHash("sha256").update(row.content).digest("hex"));
    expect(frozen?.hash).toBe(inSql?.hash);
  });

  test("nobody freezes twice the same, alone, or for somebody else", async () => {
    for (let again = 0; again < 3; again += 1) expect(valued(await approve(duo.pianist)).frozen).toBeNull();
    for (const person of [duo.coach, duo.reader]) expect(kindOf(await approve(person))).toBe("not-allowed");
    expect(kindOf(await approve(duo.stranger))).toBe("not-found");
    valued(await approve(duo.soloist));
    expect(await approve(duo.pianist)).toMatchObject({
      problem: { kind: "conflict", sentence: "Nothing has changed since № 1." },
    });
  });

  test("waits for open proposals and for a second player", async () => {
    await proposed(duo, 9, 15);
    expect(await working()).toMatchObject({ canFreeze: false, whyNot: "Cannot freeze: one answer is open." });
    expect(kindOf(await approve(duo.pianist))).toBe("conflict");
    const alone = await bringDuo();
    valued(await removeMember(alone.soloist, alone.pieceId, { userId: alone.soloist.userId }));
    const { whyNot } = valued(await readWorkingEdition(alone.pianist, alone.pieceId));
    expect(whyNot).toBe("An edition is agreed by two players, and there is no soloist here yet.");
  });

  test("a yes is taken back, and then one is missing again", async () => {
    valued(await approve(duo.pianist));
    valued(await withdrawApproval(duo.pianist, duo.pieceId));
    expect(kindOf(await withdrawApproval(duo.pianist, duo.pieceId))).toBe("conflict");
    expect(valued(await approve(duo.soloist)).frozen).toBeNull();
  });

  test.each<[string, () => Promise<unknown>]>([
    [
      "a tempo",
      () => setTempoSettings(duo.soloist, duo.pieceId, { settings: { ...printedTempo, fermataFactor: 2 } }),
    ],
    ["a part", () => setPartRoles(duo.soloist, duo.pieceId, { partRoles: { P2: "orchestra" } })],
    ["a cut", () => agreeCut(9, 15)],
  ])("%s that changes asks for every yes anew, even when it changes back", async (_what, change) => {
    const before = await working();
    valued(await approve(duo.pianist));
    await change();
    expect(kindOf(await approve(duo.soloist, before.hash))).toBe("stale-terms");
    await undo();
    const after = await working();
    expect(after.hash).toBe(before.hash);
    expect(after.approvals).toEqual([]);
  });

  async function undo(): Promise<void> {
    valued(await setTempoSettings(duo.pianist, duo.pieceId, { settings: printedTempo }));
    valued(await setPartRoles(duo.pianist, duo.pieceId, { partRoles: { P2: "reduction" } }));
    for (const { id, state } of valued(await listProposals(duo.pianist, duo.pieceId)))
      if (state === "agreed") valued(await reopenProposal(duo.pianist, duo.pieceId, { proposalId: id }));
  }

  test("what changes nothing that is played asks nobody anew", async () => {
    valued(await approve(duo.pianist));
    valued(await setLimit(duo.soloist, duo.pieceId, { limitSeconds: 540 }));
    valued(await setTempoSettings(duo.soloist, duo.pieceId, { settings: printedTempo }));
    expect((await working()).approvals).toHaveLength(1);
  });
});

describe("an edition", () => {
  test("never changes, whatever is asked of the database", async () => {
    await agreeCut(9, 15);
    const frozen = await freeze();
    const { id } = await database().edition.findFirstOrThrow({ where: { pieceId: duo.pieceId } });
    const attempts = [
      () => database().edition.update({ where: { id }, data: { hash: "0".repeat(64) } }),
      () => database().edition.delete({ where: { id } }),
      () => database().editionApproval.deleteMany({ where: { editionId: id } }),
      () => database().editionApproval.updateMany({ where: { editionId: id }, data: { name: "Somebody" } }),
      () => database().editionProposal.deleteMany({ where: { editionId: id } }),
      () => database().$executeRaw`TRUNCATE "Edition" CASCADE`,
    ];
    for (const attempt of attempts) await expect(attempt()).rejects.toThrow(/never changed/);
    expect(valued(await readEdition(duo.reader, duo.pieceId, 1))).toEqual(frozen);
  });

  test("is neither forged nor skipped: number, chain and hash are checked by the database", async () => {
    const frozen = await freeze();
    if (!frozen) throw new Error("not frozen");
    const content = writeEditionContent(frozen.content);
    const next = { pieceId: duo.pieceId, number: 2, content, hash: frozen.hash, previousHash: frozen.hash };
    const attempts = [
      { ...next, number: 3 },
      { ...next, number: 1 },
      { ...next, previousHash: null },
      { ...next, previousHash: "0".repeat(64) },
      { ...next, content: `${content} ` },
    ];
    for (const data of attempts) await expect(database().edition.create({ data })).rejects.toThrow();
    expect(await database().edition.count({ where: { pieceId: duo.pieceId } })).toBe(1);
  });

  test("stays when a cut is reopened, and the next one says what changed", async () => {
    const cut = await agreeCut(9, 15);
    await freeze();
    valued(
      await reopenProposal(duo.soloist, duo.pieceId, { proposalId: cut.id, reason: "The jury wants it." }),
    );
    expect(await working()).toMatchObject({ number: 2, content: { cuts: [] }, canFreeze: true });
    await freeze();
    const editions = valued(await listEditions(duo.coach, duo.pieceId));
    expect(editions.map(({ number, content }) => [number, content.cuts.length])).toEqual([
      [2, 0],
      [1, 1],
    ]);
    expect(editions[0]?.previousHash).toBe(editions[1]?.hash);
    const sentences = valued(await comparePieceEditions(duo.pianist, duo.pieceId, 1, 2)).map(
      ({ sentence }) => sentence,
    );
    // Six bars of four quarters at 120 quarters a minute are twelve seconds.
    expect(sentences).toEqual(["Cut opened: bars 10–15 are played again, 0:12 longer."]);
  });
});

describe("performances", () => {
  const occasion = {
    kind: "jury",
    name: "Ostermark Prize, first round",
    on: "2026-02-14",
    place: "Kestrel Hall",
    limitSeconds: 780,
    editionNumber: 1,
    remarks: "",
  };

  test("name an edition and keep its planned time beside the real one", async () => {
    await agreeCut(9, 15);
    await freeze();
    const logged = valued(await logPerformance(duo.soloist, duo.pieceId, occasion));
    // 24 bars of two seconds less the six that are cut.
    expect(logged).toMatchObject({ ...occasion, plannedSeconds: 36, realSeconds: null });
    const real = { performanceId: logged.id, realSeconds: 38.5, remarks: "Held the fermata." };
    valued(await recordRealTime(duo.pianist, duo.pieceId, real));
    expect(valued(await listPerformances(duo.coach, duo.pieceId))).toMatchObject([
      { ...occasion, plannedSeconds: 36, realSeconds: 38.5, remarks: "Held the fermata." },
    ]);
  });

  test.each([
    ["an edition that is not", { editionNumber: 7 }],
    ["no day", { on: "2026-02-30" }],
    ["no name", { name: "  " }],
    ["no time at all", { realSeconds: 0 }],
    ["an unknown kind", { kind: "party" }],
  ])("with %s are refused", async (_what, change) => {
    await freeze();
    const asked = { ...occasion, ...change };
    expect(kindOf(await logPerformance(duo.soloist, duo.pieceId, asked))).toBe("invalid-input");
  });
});

describe("what waits", () => {
  test("for the other player: proposals, and an edition to freeze", async () => {
    const counts = async (person: Person) => (await listPieces(person))[0]?.waitsForMe;
    await proposed(duo, 9, 15);
    const [first] = await listWaiting(duo.soloist);
    expect(first).toMatchObject({ kind: "proposal", from: "Ilse Brandow", pieceTitle: "Concertino" });
    expect(await Promise.all([duo.pianist, duo.soloist, duo.coach, duo.reader].map(counts))).toEqual([
      0, 1, 0, 0,
    ]);
    if (first?.kind !== "proposal") throw new Error("no proposal");
    const { id, termsHash } = first.proposal;
    valued(await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }));
    expect(await listWaiting(duo.soloist)).toEqual([]);
    valued(await approve(duo.soloist));
    expect(await listWaiting(duo.pianist)).toMatchObject([
      { kind: "edition", from: "Corin Vasey", editionNumber: 1 },
    ]);
    expect(await Promise.all([duo.pianist, duo.soloist, duo.stranger].map(counts))).toEqual([
      1,
      0,
      undefined,
    ]);
  });
});
