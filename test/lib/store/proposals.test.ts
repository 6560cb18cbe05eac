import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { reopenProposal } from "@/lib/store/proposals/reopen-proposal";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";
import { bringDuo, cutOf, type Duo, kindOf, openStoreForFile, proposed, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const states = async () => valued(await listProposals(duo.pianist, duo.pieceId)).map(({ state }) => state);
const agree = (proposal: { id: string; termsHash: string }) => ({
  proposalId: proposal.id,
  answer: "agree",
  termsHash: proposal.termsHash,
});

describe("putting a cut forward", () => {
  test("names exact terms, the person from the session, and counts from 1", async () => {
    const forged = {
      ...cutOf(duo, 9, 15, " shorter "),
      userId: duo.soloist.userId,
      proposedById: duo.soloist.userId,
    };
    const first = valued(await proposeCut(duo.pianist, duo.pieceId, forged));
    const second = await proposed(duo, 17, 18);
    expect(first).toMatchObject({
      number: 1,
      state: "open",
      proposedBy: duo.pianist.userId,
      reason: "shorter",
    });
    expect(first.terms).toEqual({ kind: "cut", ...cutOf(duo, 9, 15), reason: undefined });
    expect(second.number).toBe(2);
  });

  test("one place has one spelling: the end of a bar is the start of the next", async () => {
    const atEnd = { ...cutOf(duo, 9, 15), from: { barIndex: 8, offset: "4" } };
    const a = valued(await proposeCut(duo.pianist, duo.pieceId, atEnd));
    const b = await proposed(duo, 9, 15);
    expect(a.terms.from).toEqual({ barIndex: 9, offset: "0" });
    expect(a.termsHash).toBe(b.termsHash);
  });

  test.each([
    ["outside the piece", { from: { barIndex: 90, offset: "0" }, to: { barIndex: 95, offset: "0" } }],
    ["behind the end of a bar", { from: { barIndex: 9, offset: "9" } }],
    ["empty", { to: { barIndex: 9, offset: "0" } }],
    ["backwards", { to: { barIndex: 4, offset: "0" } }],
    ["the whole piece", { from: { barIndex: 0, offset: "0" }, to: { barIndex: 23, offset: "4" } }],
    ["no fraction", { from: { barIndex: 9, offset: "0.5" } }],
  ])("a cut that is %s is refused with a sentence", async (_what, ends) => {
    const result = await proposeCut(duo.pianist, duo.pieceId, { ...cutOf(duo, 9, 15), ...ends });
    expect(result).toMatchObject({ ok: false, problem: { kind: "invalid-input" } });
    if (!result.ok && "sentence" in result.problem) expect(result.problem.sentence).toMatch(/^\p{Lu}.*\.$/u);
    expect(await states()).toEqual([]);
  });

  test("chosen on another file, it is refused", async () => {
    const cut = { ...cutOf(duo, 9, 15), sourceHash: "0".repeat(64) };
    expect(kindOf(await proposeCut(duo.pianist, duo.pieceId, cut))).toBe("stale-terms");
  });

  test("over an agreed cut it is refused, and the sentence names that cut", async () => {
    const agreed = await proposed(duo, 9, 15);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(agreed)));
    for (const [from, to] of [
      [8, 10],
      [14, 16],
      [10, 12],
      [4, 20],
      [9, 15],
    ] as const) {
      const result = await proposeCut(duo.soloist, duo.pieceId, cutOf(duo, from, to));
      expect(kindOf(result)).toBe("conflict");
      if (!result.ok && "sentence" in result.problem)
        expect(result.problem.sentence).toContain("Cut 1 (bars 10–15)");
    }
    for (const [from, to] of [
      [7, 9],
      [15, 17],
    ] as const) {
      expect(kindOf(await proposeCut(duo.soloist, duo.pieceId, cutOf(duo, from, to)))).toBe("done");
    }
  });
});

describe("answering", () => {
  test("the other player agrees to the terms seen", async () => {
    const proposal = await proposed(duo, 9, 15);
    const settled = valued(await answerProposal(duo.soloist, duo.pieceId, agree(proposal)));
    expect(settled.state).toBe("agreed");
    expect(settled.answers).toMatchObject([
      { userId: duo.soloist.userId, answer: "agree", termsHash: proposal.termsHash },
    ]);
  });

  test("a decline needs a reason and keeps it", async () => {
    const proposal = await proposed(duo, 9, 15);
    const no = { ...agree(proposal), answer: "decline" };
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, { ...no, reason: " \n" }))).toBe(
      "invalid-input",
    );
    const settled = valued(
      await answerProposal(duo.soloist, duo.pieceId, { ...no, reason: "I need that rest before G." }),
    );
    expect(settled).toMatchObject({ state: "declined", answers: [{ reason: "I need that rest before G." }] });
  });

  test("other terms than those stored are not agreed to", async () => {
    const proposal = await proposed(duo, 9, 15);
    const other = await proposed(duo, 17, 18);
    const mixed = { ...agree(proposal), termsHash: other.termsHash };
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, mixed))).toBe("stale-terms");
    expect(await states()).toEqual(["open", "open"]);
  });

  test("nobody answers their own, nor for somebody else", async () => {
    const proposal = await proposed(duo, 9, 15);
    const forged = { ...agree(proposal), userId: duo.soloist.userId };
    for (const person of [duo.pianist, duo.coach, duo.reader]) {
      expect(kindOf(await answerProposal(person, duo.pieceId, forged))).toBe("not-allowed");
    }
    expect(kindOf(await answerProposal(duo.stranger, duo.pieceId, forged))).toBe("not-found");
    expect(await states()).toEqual(["open"]);
  });

  test("a second answer is too late and hears what happened", async () => {
    const proposal = await proposed(duo, 9, 15);
    valued(
      await answerProposal(duo.soloist, duo.pieceId, {
        ...agree(proposal),
        answer: "decline",
        reason: "Too short.",
      }),
    );
    const late = await answerProposal(duo.soloist, duo.pieceId, agree(proposal));
    expect(late).toEqual({
      ok: false,
      problem: {
        kind: "already-answered",
        sentence: "Corin Vasey has declined cut 1 meanwhile. The reason: “Too short.”",
      },
    });
  });

  test("of two overlapping proposals only one can be agreed", async () => {
    const a = await proposed(duo, 9, 15);
    const b = await proposed(duo, 12, 18);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(a)));
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, agree(b)))).toBe("conflict");
    expect(await states()).toEqual(["agreed", "open"]);
  });

  test("a proposal of another piece is not found in this one", async () => {
    const proposal = await proposed(duo, 9, 15);
    const other = await bringDuo();
    expect(kindOf(await answerProposal(other.soloist, other.pieceId, agree(proposal)))).toBe("not-found");
  });
});

describe("counter-proposing", () => {
  const counter = (proposal: { id: string }, from: number, to: number, seenState = "open") => ({
    ...cutOf(duo, from, to, "Keep the horn bars."),
    proposalId: proposal.id,
    seenState,
  });

  test("keeps the number, supersedes at once, and now the first player answers", async () => {
    const first = await proposed(duo, 9, 15);
    const second = valued(await counterPropose(duo.soloist, duo.pieceId, counter(first, 9, 13)));
    expect(second).toMatchObject({ number: 1, supersedes: first.id, state: "open" });
    expect(await states()).toEqual(["superseded", "open"]);
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, agree(second)))).toBe("not-allowed");
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, agree(first)))).toBe("already-answered");
    valued(await answerProposal(duo.pianist, duo.pieceId, agree(second)));
    expect(await states()).toEqual(["superseded", "agreed"]);
  });

  test("the same bars again are no counter-proposal", async () => {
    const first = await proposed(duo, 9, 15);
    expect(kindOf(await counterPropose(duo.soloist, duo.pieceId, counter(first, 9, 15)))).toBe(
      "invalid-input",
    );
  });

  test("an agreed cut holds until its change is agreed to", async () => {
    const first = await proposed(duo, 9, 15);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(first)));
    const change = valued(await counterPropose(duo.soloist, duo.pieceId, counter(first, 10, 16, "agreed")));
    expect(await states()).toEqual(["agreed", "open"]);
    const back = valued(await counterPropose(duo.pianist, duo.pieceId, counter(change, 10, 15)));
    expect(await states()).toEqual(["agreed", "superseded", "open"]);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(back)));
    expect(await states()).toEqual(["superseded", "superseded", "agreed"]);
  });

  test("what was declined can be put forward anew, under its number", async () => {
    const first = await proposed(duo, 9, 15);
    valued(
      await answerProposal(duo.soloist, duo.pieceId, { ...agree(first), answer: "decline", reason: "No." }),
    );
    const anew = valued(await counterPropose(duo.pianist, duo.pieceId, counter(first, 9, 15, "declined")));
    expect(anew.number).toBe(1);
    expect(await states()).toEqual(["declined", "open"]);
    expect(kindOf(await counterPropose(duo.pianist, duo.pieceId, counter(first, 9, 14, "declined")))).toBe(
      "conflict",
    );
  });

  test("a state that is no longer so stops it", async () => {
    const first = await proposed(duo, 9, 15);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(first)));
    expect(kindOf(await counterPropose(duo.pianist, duo.pieceId, counter(first, 9, 13)))).toBe(
      "already-answered",
    );
    expect(await states()).toEqual(["agreed"]);
  });
});

describe("taking back and reopening", () => {
  test("only who proposed takes it back, and it stays on record", async () => {
    const proposal = await proposed(duo, 9, 15);
    const it = { proposalId: proposal.id };
    expect(kindOf(await withdrawProposal(duo.soloist, duo.pieceId, it))).toBe("not-allowed");
    valued(await withdrawProposal(duo.pianist, duo.pieceId, it));
    expect(await states()).toEqual(["withdrawn"]);
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, agree(proposal)))).toBe("already-answered");
  });

  test("either player reopens an agreed cut", async () => {
    const proposal = await proposed(duo, 9, 15);
    expect(kindOf(await reopenProposal(duo.pianist, duo.pieceId, { proposalId: proposal.id }))).toBe(
      "already-answered",
    );
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(proposal)));
    valued(
      await reopenProposal(duo.pianist, duo.pieceId, {
        proposalId: proposal.id,
        reason: "The jury wants it.",
      }),
    );
    expect(await states()).toEqual(["reopened"]);
    expect(kindOf(await proposeCut(duo.soloist, duo.pieceId, cutOf(duo, 10, 12)))).toBe("done");
  });

  test("the database keeps terms and answers as they were", async () => {
    const proposal = await proposed(duo, 9, 15);
    valued(await answerProposal(duo.soloist, duo.pieceId, agree(proposal)));
    const { id } = proposal;
    const other = { ...proposal.terms, to: { barIndex: 20, offset: "0" } };
    const attempts = [
      () => database().proposal.update({ where: { id }, data: { terms: other } }),
      () => database().proposal.update({ where: { id }, data: { proposedById: duo.soloist.userId } }),
      () => database().answer.updateMany({ where: { proposalId: id }, data: { userId: duo.pianist.userId } }),
      () => database().answer.deleteMany({ where: { proposalId: id } }),
      () => database().proposal.delete({ where: { id } }),
      () => database().auditEntry.deleteMany({ where: { pieceId: duo.pieceId } }),
    ];
    for (const attempt of attempts) await expect(attempt()).rejects.toThrow(/never changed/);
    expect(await states()).toEqual(["agreed"]);
  });
});

test("a reader hears nothing of the discussion", async () => {
  const a = await proposed(duo, 9, 15);
  await proposed(duo, 17, 18);
  valued(await answerProposal(duo.soloist, duo.pieceId, { ...agree(a), reason: "Between us: good." }));
  const seen = valued(await listProposals(duo.reader, duo.pieceId));
  expect(seen.map(({ state }) => state)).toEqual(["agreed"]);
  expect(JSON.stringify(seen)).not.toContain("Between us");
});
