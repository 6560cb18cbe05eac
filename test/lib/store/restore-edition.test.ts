import { beforeEach, describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readEdition } from "@/lib/store/editions/read-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { restoreEdition } from "@/lib/store/editions/restore-edition";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { reopenProposal } from "@/lib/store/proposals/reopen-proposal";
import { bringDuo, cutOf, type Duo, kindOf, openStoreForFile, proposed, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const working = async () => valued(await readWorkingEdition(duo.pianist, duo.pieceId));
const restore = async (input: object = {}) =>
  restoreEdition(duo.pianist, duo.pieceId, {
    editionNumber: 1,
    workingHash: (await working()).hash,
    ...input,
  });

async function agree({ id, termsHash }: ProposalRecord): Promise<void> {
  const yes = { proposalId: id, answer: "agree", termsHash };
  valued(await answerProposal(duo.soloist, duo.pieceId, yes));
}

async function freeze(): Promise<void> {
  const { hash } = await working();
  for (const player of [duo.pianist, duo.soloist])
    valued(await approveEdition(player, duo.pieceId, { hash }));
}

/** № 1 has cuts 1 and 2 and the printed tempi; now cut 1 is moved, 2 is open again, 3 is new, a fermata lasts longer. */
async function moveOn(): Promise<void> {
  const first = await proposed(duo, 9, 12);
  const second = await proposed(duo, 14, 16);
  for (const cut of [first, second]) await agree(cut);
  await freeze();
  const moved = { ...cutOf(duo, 9, 13), proposalId: first.id, seenState: "agreed" };
  await agree(valued(await counterPropose(duo.pianist, duo.pieceId, moved)));
  valued(await reopenProposal(duo.soloist, duo.pieceId, { proposalId: second.id }));
  await agree(await proposed(duo, 18, 20));
  const settings = { ...printedTempo, fermataFactor: 3 };
  valued(await setTempoSettings(duo.soloist, duo.pieceId, { settings }));
}

const standing = async () =>
  valued(await listProposals(duo.pianist, duo.pieceId))
    .filter(({ state }) => state === "open" || state === "agreed" || state === "reopened")
    .map(({ number, state, terms }) => `${number} ${state} ${terms.from.barIndex}–${terms.to.barIndex}`);

describe("bringing an old edition back", () => {
  test("reopens what it lacks, puts forward what it has under the old numbers, and sets the tempi", async () => {
    await moveOn();
    const old = valued(await readEdition(duo.pianist, duo.pieceId, 1));
    expect(valued(await restore())).toEqual({ reopened: 2, proposed: 2, rewrites: 0 });
    expect(await standing()).toEqual([
      "1 reopened 9–13",
      "1 open 9–12",
      "2 reopened 14–16",
      "2 open 14–16",
      "3 reopened 18–20",
    ]);
    expect((await working()).content).toMatchObject({ cuts: [], tempo: printedTempo });
    const reasons = valued(await listProposals(duo.pianist, duo.pieceId)).flatMap(({ answers }) =>
      answers.filter(({ answer, reason }) => answer === "reopen" && reason !== ""),
    );
    expect(reasons.map(({ reason, userId }) => [reason, userId])).toEqual([
      ["as № 1 has it", duo.pianist.userId],
      ["as № 1 has it", duo.pianist.userId],
    ]);
    // With the other player's yes to each, it is played as № 1 was; № 1 itself is what it was.
    for (const cut of valued(await listProposals(duo.soloist, duo.pieceId)))
      if (cut.state === "open") await agree(cut);
    expect((await working()).hash).toBe(old.hash);
    expect(valued(await readEdition(duo.pianist, duo.pieceId, 1))).toEqual(old);
  });

  test("a cut that waits for an answer in these very terms is left as it is", async () => {
    await moveOn();
    const waiting = await proposed(duo, 14, 16);
    expect(valued(await restore())).toEqual({ reopened: 2, proposed: 2, rewrites: 0 });
    expect((await standing()).filter((line) => line.endsWith("open 14–16"))).toEqual([
      `${waiting.number} open 14–16`,
    ]);
  });

  test("ends the yes to freezing what stood", async () => {
    await moveOn();
    valued(await approveEdition(duo.soloist, duo.pieceId, { hash: (await working()).hash }));
    valued(await restore());
    expect(await database().approval.count({ where: { pieceId: duo.pieceId, endedAt: null } })).toBe(0);
  });
});

describe("what is refused, with nothing done", () => {
  test("something has changed since it was shown", async () => {
    await moveOn();
    const { hash: workingHash } = await working();
    await agree(await proposed(duo, 21, 22));
    const before = await standing();
    expect(kindOf(await restore({ workingHash }))).toBe("stale-terms");
    expect(await standing()).toEqual(before);
  });

  test("nothing differs", async () => {
    await agree(await proposed(duo, 9, 12));
    await freeze();
    expect(kindOf(await restore())).toBe("conflict");
  });

  test("another file", async () => {
    await moveOn();
    // A piece has one file today: another one is laid under it by hand.
    await database().source.updateMany({ where: { pieceId: duo.pieceId }, data: { hash: "e".repeat(64) } });
    const result = await restore();
    expect(result).toMatchObject({ ok: false, problem: { kind: "conflict" } });
    expect(result.ok ? "" : JSON.stringify(result.problem)).toContain("another file");
  });

  test("coach, reader and stranger", async () => {
    await moveOn();
    const { hash: workingHash } = await working();
    for (const [person, kind] of [
      [duo.coach, "not-allowed"],
      [duo.reader, "not-allowed"],
      [duo.stranger, "not-found"],
    ] as const)
      expect(kindOf(await restoreEdition(person, duo.pieceId, { editionNumber: 1, workingHash }))).toBe(kind);
  });
});
