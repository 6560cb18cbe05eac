import pg from "pg";
import { describe, expect, test } from "vitest";
import type { Result } from "@/lib/score/result";
import { database } from "@/lib/store/database";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { setPartRoles } from "@/lib/store/pieces/set-part-roles";
import { changeRestNeed } from "@/lib/store/rests/change-rest-need";
import { holdRestNeed } from "@/lib/store/rests/hold-rest-need";
import { listRestNeeds } from "@/lib/store/rests/list-rest-needs";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import { releaseRestNeed } from "@/lib/store/rests/release-rest-need";
import { removeRestNeed } from "@/lib/store/rests/remove-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";
import { restoreRestNeed } from "@/lib/store/rests/restore-rest-need";
import { setBreathPreferences } from "@/lib/store/rests/set-breath-preferences";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { bringDuo, type Duo, kindOf, openStoreForFile, restOf, valued } from "../duo";

openStoreForFile();

const roles = ["pianist", "soloist", "coach", "reader", "stranger"] as const;
type Step = (viewer: Viewer, pieceId: string, input: unknown) => Promise<Result<unknown, StoreProblem>>;

const own = { comfortableSeconds: 11, catchSeconds: 0.3, restPerPlayed: 0.5, windowSeconds: 60 };
const noted = async (duo: Duo, from = 8, to = 16) =>
  valued(await noteRestNeed(duo.soloist, duo.pieceId, restOf(duo, from, to)));
const deedsOf = ({ history }: RestNeedRecord) => history.map(({ what }) => what);
const sentenceOf = (result: Result<unknown, StoreProblem>) =>
  !result.ok && "sentence" in result.problem ? result.problem.sentence : "";

describe("who may", () => {
  const steps: Record<string, readonly [Step, (duo: Duo, need: RestNeedRecord) => unknown]> = {
    note: [noteRestNeed, (duo) => restOf(duo, 8, 16)],
    change: [changeRestNeed, (duo, { id }) => ({ ...restOf(duo, 8, 12), needId: id })],
    release: [releaseRestNeed, (_, { id }) => ({ needId: id })],
    hold: [holdRestNeed, (_, { id }) => ({ needId: id })],
    remove: [removeRestNeed, (_, { id }) => ({ needId: id })],
    restore: [restoreRestNeed, (_, { id }) => ({ needId: id })],
    "set the numbers": [setBreathPreferences, () => ({ preferences: own })],
  };

  test.each(Object.entries(steps))("%s: the soloist alone", async (_, [step, input]) => {
    const duo = await bringDuo();
    const need = await noted(duo);
    const before = await listOf(duo);
    for (const role of roles.filter((one) => one !== "soloist")) {
      const result = await step(duo[role], duo.pieceId, input(duo, need));
      expect([role, kindOf(result)]).toEqual([role, role === "stranger" ? "not-found" : "not-allowed"]);
      if (role === "pianist") expect(sentenceOf(result)).toContain("Only the soloist");
    }
    expect(await listOf(duo)).toEqual(before);
    expect(kindOf(await step(duo.soloist, duo.pieceId, input(duo, need)))).toBe("done");
  });

  test("see them: both players and the coach", async () => {
    const duo = await bringDuo();
    await noted(duo);
    valued(await setBreathPreferences(duo.soloist, duo.pieceId, { preferences: own }));
    const seen = roles.map(async (role) => kindOf(await listRestNeeds(duo[role], duo.pieceId)));
    expect(await Promise.all(seen)).toEqual(["done", "done", "done", "not-allowed", "not-found"]);
    const breathFor = async (role: (typeof roles)[number]) =>
      valued(await readPiece(duo[role], duo.pieceId)).breath;
    for (const role of ["pianist", "soloist", "coach"] as const) expect(await breathFor(role)).toEqual(own);
    expect(await breathFor("reader")).toBeNull();
  });

  test("a need of another piece is not there", async () => {
    const [duo, other] = [await bringDuo(), await bringDuo()];
    const { id } = await noted(duo);
    for (const step of [releaseRestNeed, holdRestNeed, removeRestNeed, restoreRestNeed])
      expect(kindOf(await step(other.soloist, other.pieceId, { needId: id }))).toBe("not-found");
    const change = { ...restOf(other, 8, 12), needId: id };
    expect(kindOf(await changeRestNeed(other.soloist, other.pieceId, change))).toBe("not-found");
  });
});

const listOf = async (duo: Duo) => valued(await listRestNeeds(duo.soloist, duo.pieceId));

describe("the life of a need", () => {
  test("noted, changed, let go, held again, taken off, brought back: every step with who and its terms", async () => {
    const duo = await bringDuo();
    const { pieceId, soloist } = duo;
    const { id } = await noted(duo);
    const name = { needId: id };
    valued(await changeRestNeed(soloist, pieceId, { ...restOf(duo, 8, 16, 12, "pitch"), ...name }));
    const released = valued(await releaseRestNeed(soloist, pieceId, name));
    expect(released).toMatchObject({ releasedBy: soloist.userId, releasedAt: expect.any(Date) });
    expect(valued(await holdRestNeed(soloist, pieceId, name)).releasedBy).toBeNull();
    expect(valued(await removeRestNeed(soloist, pieceId, name)).removedAt).toBeInstanceOf(Date);
    const [need] = valued(await listRestNeeds(duo.pianist, pieceId));
    expect(need?.removedAt).toBeInstanceOf(Date);
    valued(await restoreRestNeed(soloist, pieceId, name));
    const [back] = await listOf(duo);
    expect(back).toMatchObject({ notedBy: soloist.userId, removedAt: null, releasedAt: null });
    const history = back?.history ?? [];
    expect(history.map(({ what }) => what)).toEqual([
      "noted",
      "changed",
      "released",
      "held again",
      "removed",
      "brought back",
    ]);
    expect(history.map(({ terms }) => terms.needs)).toEqual([
      { seconds: 8 },
      ...Array.from({ length: 5 }, () => ({ seconds: 12 })),
    ]);
    expect(history.every(({ userId }) => userId === soloist.userId)).toBe(true);
  });

  test("asking twice does nothing twice", async () => {
    const duo = await bringDuo();
    const { id } = await noted(duo);
    const twice = async (step: Step) => {
      await step(duo.soloist, duo.pieceId, { needId: id });
      return valued(await step(duo.soloist, duo.pieceId, { needId: id })) as RestNeedRecord;
    };
    await twice(releaseRestNeed);
    await twice(holdRestNeed);
    await twice(removeRestNeed);
    expect(deedsOf(await twice(restoreRestNeed))).toHaveLength(5);
    const same = { ...restOf(duo, 8, 16), needId: id };
    expect(deedsOf(valued(await changeRestNeed(duo.soloist, duo.pieceId, same)))).toHaveLength(5);
  });

  test.each([
    ["its words", { why: "mute" }, ["noted", "released", "changed"]],
    ["its length", { needs: { bars: 2.5 } }, ["noted", "released", "changed", "held again"]],
    ["its place", { to: { barIndex: 12, offset: "0" } }, ["noted", "released", "changed", "held again"]],
  ])("one that was let go, with %s changed", async (_, change, deeds) => {
    const duo = await bringDuo();
    const { id } = await noted(duo);
    valued(await releaseRestNeed(duo.soloist, duo.pieceId, { needId: id }));
    const asked = { ...restOf(duo, 8, 16), ...change, needId: id };
    const changed = valued(await changeRestNeed(duo.soloist, duo.pieceId, asked));
    expect(deedsOf(changed)).toEqual(deeds);
    expect(changed.releasedBy).toBe(deeds.includes("held again") ? null : duo.soloist.userId);
  });

  test("what was taken off is brought back before anything else happens to it", async () => {
    const duo = await bringDuo();
    const { id } = await noted(duo);
    valued(await removeRestNeed(duo.soloist, duo.pieceId, { needId: id }));
    const change = { ...restOf(duo, 8, 12), needId: id };
    for (const step of [changeRestNeed, releaseRestNeed, holdRestNeed])
      expect(kindOf(await step(duo.soloist, duo.pieceId, change))).toBe("conflict");
  });

  test("steps racing from two devices: each on record once, and the state is that of the last", async () => {
    const duo = await bringDuo();
    const { id } = await noted(duo);
    const ask = (step: Step) => step(duo.soloist, duo.pieceId, { needId: id });
    await Promise.all(
      Array.from({ length: 6 }, () => [ask(releaseRestNeed), ask(holdRestNeed), ask(releaseRestNeed)]).flat(),
    );
    const [need] = await listOf(duo);
    const turns = need ? deedsOf(need).slice(1) : [];
    expect(turns.every((what, index) => what === (index % 2 === 0 ? "released" : "held again"))).toBe(true);
    expect(need?.releasedBy).toBe(turns.length % 2 === 1 ? duo.soloist.userId : null);
  });

  test("the database refuses to change or delete what is on record, and to delete a need", async () => {
    const duo = await bringDuo();
    const { id } = await noted(duo);
    const db = database();
    await expect(
      db.restNeedEvent.updateMany({ where: { needId: id }, data: { what: "removed" } }),
    ).rejects.toThrow(/never changed or deleted/);
    await expect(db.restNeedEvent.deleteMany({ where: { needId: id } })).rejects.toThrow(/never changed/);
    await expect(db.restNeed.delete({ where: { id } })).rejects.toThrow(/never changed or deleted/);
    await expect(db.$executeRaw`TRUNCATE "RestNeedEvent"`).rejects.toThrow(/never changed or deleted/);
    expect(await db.restNeedEvent.count({ where: { needId: id } })).toBe(1);
  });

  test("each step is in the trail and is told to open pages", async () => {
    const duo = await bringDuo();
    const listener = new pg.Client({ connectionString: process.env.DATABASE_URL });
    await listener.connect();
    const heard: unknown[] = [];
    listener.on("notification", ({ payload }) => heard.push(JSON.parse(payload ?? "")));
    await listener.query("LISTEN piece_changed");
    const { id } = await noted(duo);
    valued(await releaseRestNeed(duo.soloist, duo.pieceId, { needId: id }));
    valued(await setBreathPreferences(duo.soloist, duo.pieceId, { preferences: own }));
    // A server tells what was committed before it answers what is asked after that.
    await listener.query("SELECT 1");
    await listener.end();
    const told = { pieceId: duo.pieceId, what: "rests" };
    expect(heard.filter((one) => (one as typeof told).pieceId === duo.pieceId)).toEqual([told, told, told]);
    const trail = await database().auditEntry.findMany({
      where: { pieceId: duo.pieceId, userId: duo.soloist.userId },
      orderBy: { id: "asc" },
    });
    expect(trail.map(({ what }) => what)).toEqual(["rest need noted", "rest need released", "breath set"]);
  });
});

describe("what is refused", () => {
  const place = (barIndex: number, offset = "0") => ({ barIndex, offset });
  test.each([
    ["where the soloist plays", { from: place(2), to: place(4) }, "does not rest at bar 3"],
    ["outside the piece", { from: place(8), to: place(200) }, "which has 24 bars"],
    ["inside no bar", { from: place(8), to: place(8, "9") }, "not in the piece"],
    ["ending before it begins", { from: place(12), to: place(8) }, "ends after it begins"],
    ["of no length", { from: place(8), to: place(8) }, "ends after it begins"],
    ["of no time", { needs: { seconds: 0 } }, "Not understood"],
    ["of more than an hour", { needs: { seconds: 3601 } }, "Not understood"],
    ["of a third of a bar", { needs: { bars: 1 / 3 } }, "Not understood"],
    ["in both units", { needs: { bars: 1, seconds: 2 } }, "Not understood"],
    ["for no reason", { why: "  " }, "what the rest is for"],
    ["for an endless reason", { why: "x".repeat(201) }, "Not understood"],
  ])("a rest %s", async (_, change, sentence) => {
    const duo = await bringDuo();
    const result = await noteRestNeed(duo.soloist, duo.pieceId, { ...restOf(duo, 8, 16), ...change });
    expect(kindOf(result)).toBe("invalid-input");
    expect(sentenceOf(result)).toContain(sentence);
    expect(await listOf(duo)).toEqual([]);
  });

  test("a rest on the bars of another file, or without a solo part", async () => {
    const duo = await bringDuo();
    const other = { ...restOf(duo, 8, 16), sourceHash: "0".repeat(64) };
    expect(kindOf(await noteRestNeed(duo.soloist, duo.pieceId, other))).toBe("stale-terms");
    valued(await setPartRoles(duo.soloist, duo.pieceId, { partRoles: { P1: "orchestra" } }));
    const result = await noteRestNeed(duo.soloist, duo.pieceId, restOf(duo, 8, 16));
    expect(sentenceOf(result)).toContain("No part of this piece is the solo part");
  });

  test("the end of a bar and the start of the next are one place", async () => {
    const duo = await bringDuo();
    const asked = { ...restOf(duo, 8, 16), from: { barIndex: 7, offset: "4" } };
    const { terms } = valued(await noteRestNeed(duo.soloist, duo.pieceId, asked));
    expect(terms.from).toEqual({ barIndex: 8, offset: "0" });
  });
});

describe("the soloist's own numbers", () => {
  test("are set, and given up for those of the instrument", async () => {
    const duo = await bringDuo();
    const read = async () => valued(await readPiece(duo.pianist, duo.pieceId)).breath;
    expect(await read()).toBeNull();
    valued(await setBreathPreferences(duo.soloist, duo.pieceId, { preferences: own }));
    expect(await read()).toEqual(own);
    valued(await setBreathPreferences(duo.soloist, duo.pieceId, { preferences: null }));
    expect(await read()).toBeNull();
  });

  test.each([
    ["no number", { catchSeconds: Number.NaN }],
    ["a breath of no length", { comfortableSeconds: 0 }],
    ["a window of an hour", { windowSeconds: 3600 }],
    ["something else beside them", { userId: "another" }],
  ])("are refused with %s", async (_, change) => {
    const duo = await bringDuo();
    const preferences = { ...own, ...change };
    const result = await setBreathPreferences(duo.soloist, duo.pieceId, { preferences });
    expect(kindOf(result)).toBe("invalid-input");
  });
});
