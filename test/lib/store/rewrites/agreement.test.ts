import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { reopenProposal } from "@/lib/store/proposals/reopen-proposal";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import { shareRewrite } from "@/lib/store/rewrites/share-rewrite";
import { bringDuo, cutOf, type Duo, kindOf, openStoreForFile, proposed, rewriteOf, valued } from "../duo";
import { agreed, asking, frozen, kept, seenBy, standing, yesTo } from "./duo-rewrites";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

describe("a rewrite that the soloist is asked about", () => {
  test("stands with the soloist's yes to exactly these notes, and not before", async () => {
    const asked = await kept(duo, "asked", 2, { reason: "You lose the inner thirds." });
    expect(await standing(duo)).toEqual([]);
    const { id: proposalId } = asking(asked);
    const yes = { proposalId, answer: "agree", termsHash: asked.termsHash };
    const stale = { ...yes, termsHash: "0".repeat(64) };
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, stale))).toBe("stale-terms");
    expect(kindOf(await answerProposal(duo.pianist, duo.pieceId, yes))).toBe("not-allowed");
    for (const person of [duo.coach, duo.reader])
      expect(kindOf(await answerProposal(person, duo.pieceId, yes))).toBe("not-allowed");
    const settled = valued(await answerProposal(duo.soloist, duo.pieceId, yes));
    expect(settled).toMatchObject({ kind: "rewrite", number: 1, state: "agreed", terms: asked.terms });
    expect(await standing(duo)).toEqual([asked.terms]);
    expect(kindOf(await answerProposal(duo.soloist, duo.pieceId, yes))).toBe("already-answered");
  });

  test("is declined with a reason, and can be asked about again or told", async () => {
    const asked = await kept(duo, "asked", 2);
    const { id: proposalId } = asking(asked);
    const no = { proposalId, answer: "decline", termsHash: asked.termsHash, reason: "I need that line." };
    valued(await answerProposal(duo.soloist, duo.pieceId, no));
    expect(await standing(duo)).toEqual([]);
    const share = { rewriteId: asked.id, sharing: "asked", reason: "Listen once more." };
    const again = valued(await shareRewrite(duo.pianist, duo.pieceId, share));
    expect(again.proposal).toMatchObject({ state: "open", reason: "Listen once more." });
    const rows = await database().proposal.findMany({ orderBy: [{ createdAt: "asc" }, { id: "asc" }] });
    expect(rows.filter(({ pieceId }) => pieceId === duo.pieceId)).toMatchObject([
      { kind: "rewrite", number: 1, state: "declined" },
      { kind: "rewrite", number: 1, state: "open", supersedesId: proposalId },
    ]);
  });

  test("is taken back by the pianist alone, and reopened by either player", async () => {
    const asked = await kept(duo, "asked", 2);
    const { id: proposalId } = asking(asked);
    expect(kindOf(await withdrawProposal(duo.soloist, duo.pieceId, { proposalId }))).toBe("not-allowed");
    valued(await withdrawProposal(duo.pianist, duo.pieceId, { proposalId }));
    expect(kindOf(await yesTo(duo, asked))).toBe("already-answered");
    const share = { rewriteId: asked.id, sharing: "asked" };
    const again = valued(await shareRewrite(duo.pianist, duo.pieceId, share));
    valued(await yesTo(duo, again));
    valued(await reopenProposal(duo.soloist, duo.pieceId, { proposalId: asking(again).id, reason: "thin" }));
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 asked"]);
    expect(await standing(duo)).toEqual([]);
  });

  test("is superseded by its next version: the yes to the old one comes too late", async () => {
    const asked = await kept(duo, "asked", 2);
    const next = await kept(duo, "asked", 2, { step: "G", replaces: asked.id });
    const late = await yesTo(duo, asked);
    expect(late).toMatchObject({
      ok: false,
      problem: {
        kind: "already-answered",
        sentence: `${duo.pianist.name} has proposed something else for rewrite 1 meanwhile. Look at that first.`,
      },
    });
    valued(await yesTo(duo, next));
    expect(await standing(duo)).toEqual([next.terms]);
  });

  test("and was agreed to holds until its next version is agreed to, and is kept on record", async () => {
    const first = await agreed(duo, 2);
    const next = await kept(duo, "asked", 2, { step: "G", replaces: first.id });
    expect(await standing(duo)).toEqual([first.terms]);
    valued(await yesTo(duo, next));
    expect(await standing(duo)).toEqual([next.terms]);
    const states = await database().proposal.findMany({
      where: { pieceId: duo.pieceId },
      orderBy: [{ createdAt: "asc" }, { id: "asc" }],
      select: { state: true },
    });
    expect(states.map(({ state }) => state)).toEqual(["superseded", "agreed"]);
  });

  test("in bars where another came to stand meanwhile cannot be agreed to", async () => {
    const asked = await kept(duo, "asked", 4, { to: 6 });
    const told = await kept(duo, "told", 6);
    expect(kindOf(await yesTo(duo, asked))).toBe("conflict");
    expect(await standing(duo)).toEqual([told.terms]);
  });

  test("is told after a no, or kept for oneself: then nobody is asked any more", async () => {
    const asked = await kept(duo, "asked", 2);
    const told = valued(
      await shareRewrite(duo.pianist, duo.pieceId, { rewriteId: asked.id, sharing: "told" }),
    );
    expect(told).toMatchObject({ stands: true, proposal: null });
    expect(kindOf(await yesTo(duo, asked))).toBe("already-answered");
    const other = await kept(duo, "asked", 5);
    valued(await shareRewrite(duo.pianist, duo.pieceId, { rewriteId: other.id, sharing: "only_me" }));
    expect(kindOf(await yesTo(duo, other))).toBe("already-answered");
    expect(await listWaiting(duo.soloist)).toEqual([]);
  });

  test("and agreed to is more than told", async () => {
    const yes = await agreed(duo, 2);
    const share = { rewriteId: yes.id, sharing: "told" };
    expect(kindOf(await shareRewrite(duo.pianist, duo.pieceId, share))).toBe("conflict");
  });
});

describe("at the same time", () => {
  test("a yes and another version: one outcome, and never a yes to what was not seen", async () => {
    for (let turn = 0; turn < 12; turn += 1) {
      const fresh = await bringDuo();
      const asked = await kept(fresh, "asked", 2);
      const next = { ...rewriteOf(fresh, 2, 2, "G"), sharing: "asked", replaces: asked.id };
      const [yes, changed] = await Promise.all([
        yesTo(fresh, asked),
        keepRewrite(fresh.pianist, fresh.pieceId, next),
      ]);
      // Whoever is second sees what the first did: a yes holds beside the new question, or comes too late.
      expect(kindOf(changed)).toBe("done");
      const stands = await standing(fresh);
      expect(stands).toEqual(yes.ok ? [asked.terms] : []);
      if (!yes.ok) expect(yes.problem.kind).toBe("already-answered");
      const open = valued(await listRewrites(fresh.soloist, fresh.pieceId)).filter(
        ({ proposal }) => proposal?.state === "open",
      );
      expect(open.map(({ termsHash }) => termsHash)).toEqual([valued(changed).termsHash]);
    }
  });

  test("two yeses to rewrites that share a bar: one of them", async () => {
    const [one, other] = [await kept(duo, "asked", 2, { to: 4 }), await kept(duo, "asked", 4, { to: 5 })];
    const results = await Promise.all([yesTo(duo, one), yesTo(duo, other)]);
    expect(results.map(kindOf).sort()).toEqual(["conflict", "done"]);
    expect(await standing(duo)).toHaveLength(1);
  });
});

describe("cuts and rewrites", () => {
  test("are numbered apart, listed apart, and agreed to beside each other in the same bars", async () => {
    const rewrite = await agreed(duo, 9);
    const cut = await proposed(duo, 9, 12);
    expect([rewrite.number, cut.number]).toEqual([1, 1]);
    const yes = { proposalId: cut.id, answer: "agree", termsHash: cut.termsHash };
    expect(valued(await answerProposal(duo.soloist, duo.pieceId, yes))).toMatchObject({ kind: "cut" });
    // Agreeing to cut 1 is nothing to rewrite 1.
    expect(await standing(duo)).toEqual([rewrite.terms]);
    const listed = valued(await listProposals(duo.soloist, duo.pieceId));
    expect(listed.map(({ id, state }) => [id, state])).toEqual([[cut.id, "agreed"]]);
    const edition = await frozen(duo);
    expect(edition.content).toMatchObject({ cuts: [cut.terms], rewrites: [rewrite.terms] });
    expect(edition.cutNumbers).toEqual([1]);
    const { proposals } = await database().edition.findFirstOrThrow({
      where: { pieceId: duo.pieceId },
      include: { proposals: true },
    });
    expect(proposals.map(({ proposalId }) => proposalId).sort()).toEqual([cut.id, asking(rewrite).id].sort());
    const again = valued(await proposeCut(duo.soloist, duo.pieceId, cutOf(duo, 13, 15)));
    expect(again.number).toBe(2);
  });

  test("a rewrite is not counter-proposed with a cut", async () => {
    const asked = await kept(duo, "asked", 9);
    const { id: proposalId } = asking(asked);
    const counter = { ...cutOf(duo, 9, 11), proposalId };
    expect(kindOf(await counterPropose(duo.soloist, duo.pieceId, counter))).toBe("not-found");
  });
});
