import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, afterEach, describe, expect, test, vi } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { Result } from "@/lib/score/result";
import { closeDatabase, database } from "@/lib/store/database";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import { counterPropose } from "@/lib/store/proposals/counter-propose";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { proposeCuts } from "@/lib/store/proposals/propose-cuts";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";
import { ReasonsThread } from "@/lib/store/reasons/reasons-thread";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import type { StoreProblem } from "@/lib/store/store-problem";
import { bringDuo, cutOf, type Duo, kindOf, openStoreForFile, proposed, restOf, valued } from "./duo";

// The pieces have 24 bars of two seconds; the soloist rests from bar index 8 to 16.

openStoreForFile();
afterEach(() => vi.restoreAllMocks());

const roles = ["pianist", "soloist", "coach", "reader", "stranger"] as const;
const holder = globalThis as typeof globalThis & { collaReasons?: ReasonsThread };
const places = ([from, to]: readonly [number, number]) => ({
  from: { barIndex: from, offset: "0" },
  to: { barIndex: to, offset: "0" },
});
const setOf = (duo: Duo, bars: readonly (readonly [number, number])[], limitSeconds: number | null = 40) => ({
  sourceHash: duo.sourceHash,
  cuts: bars.map(places),
  reason: "Shorter.",
  plan: { limitSeconds },
});
const listOf = async ({ pianist, pieceId }: Duo) => valued(await listProposals(pianist, pieceId));
const numbersOf = (records: readonly ProposalRecord[]) => records.map(({ number }) => number);
const sentenceOf = (result: Result<unknown, StoreProblem>) =>
  !result.ok && "sentence" in result.problem ? result.problem.sentence : "";
const agreedTo = async (duo: Duo, { id, termsHash }: ProposalRecord) =>
  valued(await answerProposal(duo.soloist, duo.pieceId, { proposalId: id, answer: "agree", termsHash }));

describe("a set of cuts", () => {
  test("is put forward in the order of the page, each cut with what speaks for it and for the set", async () => {
    const duo = await bringDuo();
    const bars = [
      [13, 15],
      [9, 11],
    ] as const;
    const { proposed: made, left } = valued(await proposeCuts(duo.pianist, duo.pieceId, setOf(duo, bars)));
    expect(left).toEqual([]);
    expect(numbersOf(made)).toEqual([1, 2]);
    expect(made.map(({ terms }) => terms.from.barIndex)).toEqual([9, 13]);
    const plan = {
      sentence: "With cuts 1 and 2 the piece runs 0:40, within the limit of 0:40.",
      limitSeconds: 40,
      runsSeconds: 40,
      cuts: [places([9, 11]), places([13, 15])],
    };
    for (const { why, reason, state } of made) {
      expect([reason, state]).toEqual(["Shorter.", "open"]);
      expect(why).toMatchObject({ schema: 1, savedSeconds: 4, plan });
      expect(why?.sentences.length).toBeGreaterThan(0);
    }
    expect(await listOf(duo)).toEqual(made);
    const trail = await database().auditEntry.count({
      where: { pieceId: duo.pieceId, what: "cut proposed" },
    });
    expect(trail).toBe(2);
  });

  test("counts the agreed cuts in, at the duo's own tempo", async () => {
    const duo = await bringDuo();
    await agreedTo(duo, await proposed(duo, 0, 4));
    const tempo = { ...printedTempo, tempi: [{ at: places([0, 1]).from, quartersPerMinute: 60 }] };
    valued(await setTempoSettings(duo.soloist, duo.pieceId, { settings: tempo }));
    const asked = setOf(duo, [[9, 12]], 60);
    const [made] = valued(await proposeCuts(duo.soloist, duo.pieceId, asked)).proposed;
    expect(made?.why?.savedSeconds).toBe(12);
    expect(made?.why?.plan?.sentence).toBe(
      "With cut 2 beside the agreed cut 1 the piece runs 1:08, 8 s over the limit of 1:00.",
    );
  });

  test("without a plan keeps each cut's own reasons alone", async () => {
    const duo = await bringDuo();
    const asked = { ...setOf(duo, [[9, 12]]), plan: null };
    const [made] = valued(await proposeCuts(duo.pianist, duo.pieceId, asked)).proposed;
    expect(made?.why).toMatchObject({ savedSeconds: 6, plan: null });
  });

  test("leaves what is open or agreed in these terms as it is, and says so", async () => {
    const duo = await bringDuo();
    const agreed = await agreedTo(duo, await proposed(duo, 0, 2));
    const open = await proposed(duo, 9, 12);
    const taken = await proposed(duo, 18, 20);
    valued(await withdrawProposal(duo.pianist, duo.pieceId, { proposalId: taken.id }));
    const bars = [
      [0, 2],
      [9, 12],
      [18, 20],
    ] as const;
    const done = valued(await proposeCuts(duo.soloist, duo.pieceId, setOf(duo, bars)));
    expect(done.left).toEqual([agreed, open]);
    expect(numbersOf(done.proposed)).toEqual([4]);
    expect(done.proposed[0]?.why?.plan?.sentence).toBe(
      "With cuts 1, 2 and 4 the piece runs 0:34, within the limit of 0:40.",
    );
    const again = valued(await proposeCuts(duo.soloist, duo.pieceId, setOf(duo, bars)));
    expect([again.proposed, numbersOf(again.left)]).toEqual([[], [1, 2, 4]]);
  });

  test.each([
    [
      "bars of an agreed cut",
      [
        [0, 2],
        [9, 12],
      ] as const,
      "conflict",
      "is agreed and has some of these bars",
    ],
    [
      "bars of another of the set",
      [
        [0, 3],
        [2, 4],
      ] as const,
      "conflict",
      "Two cuts of the set share bars",
    ],
    [
      "the same cut twice",
      [
        [0, 2],
        [0, 2],
      ] as const,
      "conflict",
      "Two cuts of the set share bars",
    ],
    [
      "a cut outside the piece",
      [
        [0, 2],
        [20, 90],
      ] as const,
      "invalid-input",
      "outside the piece",
    ],
    [
      "a cut of nothing",
      [
        [0, 2],
        [5, 5],
      ] as const,
      "invalid-input",
      "nothing would be left out",
    ],
    ["no cut", [] as const, "invalid-input", "at least one"],
    [
      "too many cuts",
      Array.from({ length: 25 }, (_, index) => [index, index + 1] as const),
      "invalid-input",
      "At most 24",
    ],
  ])("with %s is refused whole", async (_, bars, kind, sentence) => {
    const duo = await bringDuo();
    const agreed = await agreedTo(duo, await proposed(duo, 10, 14));
    const result = await proposeCuts(duo.pianist, duo.pieceId, setOf(duo, bars));
    expect(kindOf(result)).toBe(kind);
    expect(sentenceOf(result)).toContain(sentence);
    expect(await listOf(duo)).toEqual([agreed]);
  });

  test("fails whole when the database fails in the middle of it", async () => {
    const duo = await bringDuo();
    await database().$executeRawUnsafe(`
      CREATE FUNCTION fail_at_two() RETURNS trigger LANGUAGE plpgsql AS $$
      BEGIN RAISE EXCEPTION 'the disk is full'; END $$`);
    await database().$executeRawUnsafe(`
      CREATE TRIGGER fail_at_two BEFORE INSERT ON "Proposal" FOR EACH ROW
      WHEN (NEW."number" = 2 AND NEW."pieceId" = '${duo.pieceId}') EXECUTE FUNCTION fail_at_two()`);
    const asked = setOf(duo, [
      [0, 2],
      [9, 12],
    ]);
    await expect(proposeCuts(duo.pianist, duo.pieceId, asked)).rejects.toThrow(/disk is full/);
    expect(await listOf(duo)).toEqual([]);
    expect(await database().auditEntry.count({ where: { pieceId: duo.pieceId, what: "cut proposed" } })).toBe(
      0,
    );
    await database().$executeRawUnsafe(`DROP TRIGGER fail_at_two ON "Proposal"`);
  });

  test("put forward by both at once: numbers are unique, no cut stands twice, and no half set", async () => {
    for (let round = 0; round < 5; round += 1) {
      const duo = await bringDuo();
      const ask = (who: "pianist" | "soloist", bars: readonly (readonly [number, number])[]) =>
        proposeCuts(duo[who], duo.pieceId, setOf(duo, bars));
      const [ones, same, others] = await Promise.all([
        ask("pianist", [
          [0, 2],
          [9, 12],
          [18, 20],
        ]),
        ask("soloist", [
          [0, 2],
          [9, 12],
          [18, 20],
        ]),
        ask("soloist", [
          [4, 6],
          [13, 15],
        ]),
      ]);
      const made = [ones, same, others].map((result) => valued(result).proposed.length);
      expect(made.slice(0, 2).sort()).toEqual([0, 3]);
      expect(made[2]).toBe(2);
      const all = await listOf(duo);
      expect(numbersOf(all)).toEqual([1, 2, 3, 4, 5]);
      expect(new Set(all.map(({ termsHash }) => termsHash)).size).toBe(5);
    }
  });

  test("may be put forward by the players alone", async () => {
    const duo = await bringDuo();
    const kinds = [];
    for (const role of roles)
      kinds.push(kindOf(await proposeCuts(duo[role], duo.pieceId, setOf(duo, [[9, 12]]))));
    expect(kinds).toEqual(["done", "done", "not-allowed", "not-allowed", "not-found"]);
  });
});

describe("the reasons kept with a proposal", () => {
  test("tell first of a needed rest that the cut takes, and are the server's own", async () => {
    const duo = await bringDuo();
    valued(await noteRestNeed(duo.soloist, duo.pieceId, restOf(duo, 8, 16, 14)));
    const why = { schema: 1, grade: "clean", sentences: ["Trust me."], savedSeconds: 99, plan: null };
    const forged = { ...cutOf(duo, 9, 12), why };
    const { why: kept } = valued(await proposeCut(duo.pianist, duo.pieceId, forged));
    expect(kept?.savedSeconds).toBe(6);
    expect(kept?.sentences).not.toContain("Trust me.");
    expect(kept?.sentences[0]).toBe(
      "Before bar 17: 16 s of rest, 10 s with the cuts; 14 s needed (lip): 4 s short.",
    );
  });

  test("of a counter-proposal leave out what it would replace", async () => {
    const duo = await bringDuo();
    const agreed = await agreedTo(duo, await proposed(duo, 9, 12));
    const counter = { ...cutOf(duo, 9, 13), proposalId: agreed.id, seenState: "agreed" };
    const { why, number } = valued(await counterPropose(duo.soloist, duo.pieceId, counter));
    expect([number, why?.savedSeconds]).toEqual([1, 8]);
  });

  test("outlast the process and everything that changes later, and cannot be changed", async () => {
    const duo = await bringDuo();
    const made = valued(await proposeCut(duo.pianist, duo.pieceId, cutOf(duo, 9, 12)));
    expect(made.why).not.toBeNull();
    holder.collaReasons?.end();
    await closeDatabase();
    valued(await noteRestNeed(duo.soloist, duo.pieceId, restOf(duo, 8, 16, 14)));
    expect(await listOf(duo)).toEqual([made]);
    const other = { ...made.why, savedSeconds: 1 };
    await expect(
      database().proposal.update({ where: { id: made.id }, data: { why: other } }),
    ).rejects.toThrow(/never changed/);
  });

  test("are shown to those who read the discussion", async () => {
    const duo = await bringDuo();
    await agreedTo(duo, await proposed(duo, 9, 12));
    const seen = [];
    for (const role of ["pianist", "soloist", "coach", "reader"] as const) {
      const [one] = valued(await listProposals(duo[role], duo.pieceId));
      seen.push(one?.why !== null);
    }
    expect(seen).toEqual([true, true, true, false]);
  });

  describe("when they cannot be found", () => {
    const folder = mkdtempSync(path.join(tmpdir(), "colla-reasons-"));
    afterAll(() => rmSync(folder, { recursive: true }));
    const threadThat = (does: string) => {
      const file = path.join(folder, `${does.length}.mjs`);
      writeFileSync(
        file,
        `import { parentPort } from "node:worker_threads"; parentPort.on("message", ({ id }) => { ${does} });`,
      );
      holder.collaReasons?.end();
      holder.collaReasons = new ReasonsThread(file);
    };

    test.each([
      ["the thread dies", `throw new Error("out of memory " + id)`, "out of memory"],
      ["the thread fails", `parentPort.postMessage({ id, kind: "failed", detail: "no ear" })`, "no ear"],
      [
        "they are not what they should be",
        `parentPort.postMessage({ id, kind: "done", reasons: [{ grade: "fine" }] })`,
        "schema",
      ],
      ["it takes too long", "void id", "it took too long"],
    ])("because %s, the proposal stands without them, and the next has them", async (_, does, logged) => {
      const duo = await bringDuo();
      const log = vi.spyOn(console, "error").mockReturnValue();
      // Nobody waits fifteen seconds here: that wait alone is over at once.
      const wait = globalThis.setTimeout;
      const hurried = (run: () => void, ms?: number) => wait(run, ms === 15_000 ? 50 : ms);
      if (does === "void id") vi.spyOn(globalThis, "setTimeout").mockImplementation(hurried as typeof wait);
      threadThat(does);
      const made = valued(await proposeCut(duo.pianist, duo.pieceId, cutOf(duo, 9, 12)));
      expect([made.why, made.state]).toEqual([null, "open"]);
      expect(log.mock.calls.map(String).join()).toContain(logged);
      vi.restoreAllMocks();
      holder.collaReasons?.end();
      const next = valued(await proposeCut(duo.pianist, duo.pieceId, cutOf(duo, 18, 20)));
      expect(next.why).toMatchObject({ savedSeconds: 4 });
    });
  });
});
