import { beforeEach, describe, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { comparePieceEditions } from "@/lib/store/editions/compare-piece-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listWaiting } from "@/lib/store/proposals/list-waiting";
import { bringBackRewrite } from "@/lib/store/rewrites/bring-back-rewrite";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import { shareRewrite } from "@/lib/store/rewrites/share-rewrite";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";
import { bringDuo, type Duo, kindOf, openStoreForFile, rewriteOf, valued } from "../duo";
import { agreed, frozen, kept, seenBy, standing } from "./duo-rewrites";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const on = (rewrite: { readonly id: string }, more: object = {}) => ({ rewriteId: rewrite.id, ...more });
const approvals = () => database().approval.count({ where: { pieceId: duo.pieceId, endedAt: null } });
const approve = async () => {
  const { hash } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
  valued(await approveEdition(duo.pianist, duo.pieceId, { hash }));
};

describe("what the pianist keeps", () => {
  test("for their own eyes is in no edition, until it is told", async () => {
    const rewrite = await kept(duo, "only_me", 2);
    expect(rewrite).toMatchObject({ number: 1, sharing: "only_me", stands: false, proposal: null });
    expect(await standing(duo)).toEqual([]);
    const told = valued(
      await shareRewrite(duo.pianist, duo.pieceId, on(rewrite, { sharing: "told", reason: "wide" })),
    );
    expect(told).toMatchObject({ id: rewrite.id, sharing: "told", stands: true, reason: "wide" });
    expect(await standing(duo)).toEqual([rewrite.terms]);
  });

  test("and tells stands at once, in the order of the page, in the content that would be frozen", async () => {
    const later = await kept(duo, "told", 10, { to: 11 });
    const earlier = await kept(duo, "told", 3);
    expect([later.number, earlier.number]).toEqual([1, 2]);
    expect(await standing(duo)).toEqual([earlier.terms, later.terms]);
    const edition = await frozen(duo);
    expect(edition.content.rewrites).toEqual([earlier.terms, later.terms]);
    const listed = valued(await listRewrites(duo.soloist, duo.pieceId));
    expect(listed.map(({ frozenInEditions }) => frozenInEditions)).toEqual([[1], [1]]);
    await kept(duo, "told", 3, { step: "G", replaces: earlier.id });
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(later)));
    const differences = valued(await comparePieceEditions(duo.soloist, duo.pieceId, 1, "working"));
    expect(differences.map(({ sentence }) => sentence)).toEqual([
      "Ossia in bar 4 changed: another step.",
      "Ossia in bars 11–12 gone: played as printed again (was: another step).",
    ]);
  });

  test("told and agreed together make the edition; what is open stands in its way", async () => {
    const told = await kept(duo, "told", 2);
    const yes = await agreed(duo, 4);
    const open = await kept(duo, "asked", 6);
    await kept(duo, "only_me", 8);
    expect(await standing(duo)).toEqual([told.terms, yes.terms]);
    const { whyNot } = valued(await readWorkingEdition(duo.pianist, duo.pieceId));
    expect(whyNot).toBe("Cannot freeze: one answer is open.");
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(open)));
    const edition = await frozen(duo);
    expect(edition.content.rewrites).toEqual([told.terms, yes.terms]);
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*", "2 asked*", "3 asked"]);
  });

  test("twice in the same notes is kept once", async () => {
    const [one, other] = [await kept(duo, "told", 2), await kept(duo, "told", 2)];
    expect(other).toEqual(one);
    expect(await database().rewrite.count({ where: { pieceId: duo.pieceId } })).toBe(1);
  });

  test("is the pianist's to write, and of these bars", async () => {
    const mine = rewriteOf(duo, 2);
    for (const person of [duo.soloist, duo.coach, duo.reader])
      expect(kindOf(await keepRewrite(person, duo.pieceId, mine))).toBe("not-allowed");
    expect(kindOf(await keepRewrite(duo.stranger, duo.pieceId, mine))).toBe("not-found");
    const short = { ...mine, terms: { ...mine.terms, events: mine.terms.events.slice(1) } };
    expect(kindOf(await keepRewrite(duo.pianist, duo.pieceId, short))).toBe("invalid-input");
    const other = { ...mine, terms: { ...mine.terms, sourceHash: "0".repeat(64) } };
    expect(kindOf(await keepRewrite(duo.pianist, duo.pieceId, other))).toBe("stale-terms");
    expect(await database().rewrite.count({ where: { pieceId: duo.pieceId } })).toBe(0);
  });
});

describe("another version", () => {
  test("that is told takes the place of what stands, under its number, and the other is kept", async () => {
    const first = await kept(duo, "told", 2);
    const second = await kept(duo, "told", 2, { step: "G", replaces: first.id });
    expect(second).toMatchObject({ number: 1, replaces: first.id, stands: true });
    expect(second.earlier.map(({ terms }) => terms)).toEqual([first.terms]);
    expect(await standing(duo)).toEqual([second.terms]);
    const again = { ...rewriteOf(duo, 2, 2, "F"), replaces: first.id };
    expect(kindOf(await keepRewrite(duo.pianist, duo.pieceId, again))).toBe("stale-terms");
  });

  test("for the pianist's eyes stands beside what is told, until it takes its place", async () => {
    const told = await kept(duo, "told", 2);
    const draft = await kept(duo, "only_me", 2, { step: "G", replaces: told.id });
    const better = await kept(duo, "only_me", 2, { step: "A", replaces: draft.id });
    expect(await seenBy(duo, duo.pianist)).toEqual(["1 told*", "1 only_me"]);
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*"]);
    expect(await standing(duo)).toEqual([told.terms]);
    valued(await shareRewrite(duo.pianist, duo.pieceId, on(better, { sharing: "told" })));
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*"]);
    expect(await standing(duo)).toEqual([better.terms]);
    const [seen] = valued(await listRewrites(duo.soloist, duo.pieceId));
    // The draft in between is the pianist's.
    expect([seen?.replaces, seen?.earlier.map(({ id }) => id)]).toEqual([null, [told.id]]);
  });

  test("that is asked about lets what stands hold until it is agreed", async () => {
    const told = await kept(duo, "told", 2);
    const asked = await kept(duo, "asked", 2, { step: "G", replaces: told.id });
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*", "1 asked"]);
    expect(await standing(duo)).toEqual([told.terms]);
    expect((await listWaiting(duo.soloist)).map(({ kind }) => kind)).toEqual(["rewrite"]);
    const third = await kept(duo, "asked", 2, { step: "A", replaces: asked.id });
    expect(await seenBy(duo, duo.soloist)).toEqual(["1 told*", "1 asked"]);
    const waiting = await listWaiting(duo.soloist);
    expect(waiting).toMatchObject([
      { kind: "rewrite", rewriteId: third.id, from: duo.pianist.name, proposal: { number: 1 } },
    ]);
    expect(await standing(duo)).toEqual([told.terms]);
  });
});

describe("two rewrites", () => {
  test("never stand in the same bars, in whatever way they come to stand", async () => {
    await kept(duo, "told", 4, { to: 6 });
    const refused = await keepRewrite(duo.pianist, duo.pieceId, { ...rewriteOf(duo, 6, 7), sharing: "told" });
    expect(refused).toMatchObject({
      ok: false,
      problem: {
        kind: "conflict",
        sentence: "Rewrite 1 (bars 5–7) stands and has some of these bars. Take it off or change it.",
      },
    });
    for (const sharing of ["told", "asked"]) {
      const again = { ...rewriteOf(duo, 3, 4), sharing };
      expect(kindOf(await keepRewrite(duo.pianist, duo.pieceId, again))).toBe("conflict");
      const draft = await kept(duo, "only_me", 5, { step: sharing === "told" ? "F" : "B" });
      const share = on(draft, { sharing });
      expect(kindOf(await shareRewrite(duo.pianist, duo.pieceId, share))).toBe("conflict");
    }
    expect(await standing(duo)).toHaveLength(1);
    await kept(duo, "told", 7);
    expect(await standing(duo)).toHaveLength(2);
  });

  test("that are told at the same time: one of them", async () => {
    const wanted = [rewriteOf(duo, 4, 6), rewriteOf(duo, 6, 8, "G")];
    const results = await Promise.all(
      wanted.map((one) => keepRewrite(duo.pianist, duo.pieceId, { ...one, sharing: "told" })),
    );
    expect(results.map(kindOf).sort()).toEqual(["conflict", "done"]);
    expect(await standing(duo)).toHaveLength(1);
  });
});

describe("what is taken off", () => {
  test("stands no longer, and stands again when it is brought back", async () => {
    const told = await kept(duo, "told", 2);
    const off = valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(told)));
    expect([off.stands, off.takenOffAt === null]).toEqual([false, false]);
    expect(await standing(duo)).toEqual([]);
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(told)));
    const back = valued(await bringBackRewrite(duo.pianist, duo.pieceId, on(told)));
    expect([back.stands, back.takenOffAt]).toEqual([true, null]);
    const events = await database().rewriteEvent.findMany({
      where: { rewriteId: told.id },
      orderBy: [{ at: "asc" }, { id: "asc" }],
    });
    expect(events.map(({ what }) => what)).toEqual(["kept", "taken_off", "brought_back"]);
  });

  test("does not come back where another stands now", async () => {
    const told = await kept(duo, "told", 2);
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(told)));
    await kept(duo, "told", 2, { step: "G" });
    expect(kindOf(await bringBackRewrite(duo.pianist, duo.pieceId, on(told)))).toBe("conflict");
  });

  test("opens a yes again: it comes back to be asked anew", async () => {
    const yes = await agreed(duo, 2);
    const off = valued(
      await takeOffRewrite(duo.pianist, duo.pieceId, on(yes, { reason: "it lies well now" })),
    );
    expect(off.proposal).toMatchObject({ state: "reopened" });
    const back = valued(await bringBackRewrite(duo.pianist, duo.pieceId, on(yes)));
    expect(back).toMatchObject({ sharing: "asked", stands: false, proposal: { state: "reopened" } });
    const again = valued(await shareRewrite(duo.pianist, duo.pieceId, on(yes, { sharing: "asked" })));
    expect(again.proposal).toMatchObject({ state: "open", answers: [] });
    expect(again.proposal?.id).not.toBe(yes.proposal?.id);
  });
});

describe("a yes to freezing ends", () => {
  test.each([
    ["when something is told", async () => kept(duo, "told", 5)],
    [
      "when a told one is changed",
      async (first: string) => kept(duo, "told", 2, { step: "G", replaces: first }),
    ],
    [
      "when one is taken off",
      async (rewriteId: string) => valued(await takeOffRewrite(duo.pianist, duo.pieceId, { rewriteId })),
    ],
    [
      "when one becomes private",
      async (rewriteId: string) =>
        valued(await shareRewrite(duo.pianist, duo.pieceId, { rewriteId, sharing: "only_me" })),
    ],
    [
      "when one is asked about instead",
      async (rewriteId: string) =>
        valued(await shareRewrite(duo.pianist, duo.pieceId, { rewriteId, sharing: "asked" })),
    ],
  ])("%s", async (_name, change) => {
    const { id } = await kept(duo, "told", 2);
    await approve();
    expect(await approvals()).toBe(1);
    await change(id);
    expect(await approvals()).toBe(0);
  });

  test("when one is agreed to, not when something is kept for one's own eyes", async () => {
    await approve();
    const draft = await kept(duo, "only_me", 5);
    valued(await takeOffRewrite(duo.pianist, duo.pieceId, on(draft)));
    expect(await approvals()).toBe(1);
    await agreed(duo, 9);
    expect(await approvals()).toBe(0);
  });
});

test("the database itself keeps the notes of a rewrite and what was done to it", async () => {
  const told = await kept(duo, "told", 2);
  await frozen(duo);
  const attempts = [
    () => database().rewrite.update({ where: { id: told.id }, data: { termsHash: "x" } }),
    () => database().rewrite.update({ where: { id: told.id }, data: { terms: {} } }),
    () => database().rewrite.delete({ where: { id: told.id } }),
    () => database().rewriteEvent.deleteMany({ where: { rewriteId: told.id } }),
    () => database().rewriteEvent.updateMany({ where: { rewriteId: told.id }, data: { reason: "no" } }),
    () => database().editionRewrite.deleteMany({ where: { rewriteId: told.id } }),
  ];
  for (const attempt of attempts) await expect(attempt()).rejects.toThrow(/never|Foreign key/);
  expect(valued(await listRewrites(duo.soloist, duo.pieceId))).toEqual([{ ...told, frozenInEditions: [1] }]);
});
