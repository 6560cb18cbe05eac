import { randomUUID } from "node:crypto";
import { beforeEach, describe, expect, test } from "vitest";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { changePerformance } from "@/lib/store/performances/change-performance";
import { listPerformanceChanges } from "@/lib/store/performances/list-performance-changes";
import {
  listMyPerformances,
  listPerformances,
  listRemovedPerformances,
} from "@/lib/store/performances/list-performances";
import { logPerformance } from "@/lib/store/performances/log-performance";
import { recordRealTime } from "@/lib/store/performances/record-real-time";
import { recordRun } from "@/lib/store/performances/record-run";
import { removePerformance, restorePerformance } from "@/lib/store/performances/remove-performance";
import { takeRunTimings } from "@/lib/store/performances/take-run-timings";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { bringDuo, type Duo, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
  await freeze(duo);
});

async function freeze({ pianist, soloist, pieceId }: Duo) {
  const { hash } = valued(await readWorkingEdition(pianist, pieceId));
  for (const player of [pianist, soloist]) valued(await approveEdition(player, pieceId, { hash }));
}

/** № 2, in other terms. */
async function freezeAnother() {
  const settings = { ...printedTempo, fermataFactor: 2 };
  valued(await setTempoSettings(duo.soloist, duo.pieceId, { settings }));
  await freeze(duo);
}

const jury = {
  ...{ kind: "jury", name: "Ostermark Prize, first round", on: "2026-02-14", startsAt: "10:40" },
  ...{ place: "Kestrel Hall", limitSeconds: 780, editionNumber: 1, remarks: "", result: "" },
};
const log = async () => valued(await logPerformance(duo.soloist, duo.pieceId, jury));
const changes = async (performanceId: string) =>
  valued(await listPerformanceChanges(duo.coach, duo.pieceId, { performanceId }));

describe("an occasion", () => {
  test("has its time of day and its result; the coach reads it, a reader and a stranger do not", async () => {
    const logged = await log();
    expect(logged).toMatchObject({ ...jury, revision: 0, isRemoved: false, sections: null });
    expect(valued(await listPerformances(duo.coach, duo.pieceId))).toEqual([logged]);
    expect(await listMyPerformances(duo.coach)).toMatchObject([{ id: logged.id }]);
    expect(kindOf(await listPerformances(duo.reader, duo.pieceId))).toBe("not-allowed");
    expect(await listMyPerformances(duo.reader)).toEqual([]);
    expect(kindOf(await listPerformances(duo.stranger, duo.pieceId))).toBe("not-found");
    expect(await listMyPerformances(duo.stranger)).toEqual([]);
  });

  test("is changed by the other player too, and what stood there stays in the trail", async () => {
    const { id } = await log();
    const changed = { ...jury, performanceId: id, revision: 0, result: "second round", remarks: "Too fast." };
    expect(valued(await changePerformance(duo.pianist, duo.pieceId, changed))).toMatchObject({
      ...{ result: "second round", remarks: "Too fast.", revision: 1 },
    });
    const again = { ...changed, revision: 1, remarks: "Too fast at C." };
    valued(await changePerformance(duo.soloist, duo.pieceId, again));
    expect(await changes(id)).toMatchObject([
      { what: "performance changed", by: duo.soloist.name, before: { remarks: "Too fast." } },
      { by: duo.pianist.name, before: { remarks: "", result: "" }, after: { result: "second round" } },
      { what: "performance logged", by: duo.soloist.name, before: {} },
    ]);
    expect(kindOf(await listPerformanceChanges(duo.reader, duo.pieceId, { performanceId: id }))).toBe(
      "not-allowed",
    );
  });

  test("nobody writes over what they have not seen", async () => {
    const { id } = await log();
    const change = { ...jury, performanceId: id, revision: 0 };
    const both = await Promise.all([
      changePerformance(duo.pianist, duo.pieceId, { ...change, remarks: "one" }),
      changePerformance(duo.soloist, duo.pieceId, { ...change, remarks: "other" }),
    ]);
    expect(both.map(kindOf).sort()).toEqual(["done", "stale-terms"]);
  });

  test("is taken off and brought back as it stood", async () => {
    const logged = await log();
    const named = { performanceId: logged.id };
    valued(await removePerformance(duo.pianist, duo.pieceId, named));
    expect(await listMyPerformances(duo.soloist)).toEqual([]);
    expect(valued(await listPerformances(duo.soloist, duo.pieceId))).toEqual([]);
    expect(valued(await listRemovedPerformances(duo.coach, duo.pieceId))).toMatchObject([
      { isRemoved: true },
    ]);
    expect(kindOf(await listRemovedPerformances(duo.reader, duo.pieceId))).toBe("not-allowed");
    const back = valued(await restorePerformance(duo.soloist, duo.pieceId, named));
    expect({ ...back, revision: 0, changedAt: logged.changedAt }).toEqual(logged);
    expect((await changes(logged.id)).map(({ what }) => what)).toEqual([
      ...["performance brought back", "performance taken off", "performance logged"],
    ]);
  });

  test("another edition is planned anew", async () => {
    const { id } = await log();
    const change = { ...jury, performanceId: id, revision: 0, editionNumber: 2 };
    expect(kindOf(await changePerformance(duo.pianist, duo.pieceId, change))).toBe("invalid-input");
  });

  test.each([
    ["lies ahead", "2026-03-20", {}, "done"],
    ["is today", "2026-03-10", {}, "done"],
    ["was timed today", "2026-03-10", { realSeconds: 47 }, "conflict"],
    ["lies behind", "2026-03-09", {}, "conflict"],
  ])("that %s points at another edition: %s %j, unless it is said: %s", async (_when, on, more, kind) => {
    await freezeAnother();
    await runAt(new Date("2026-03-10T12:00:00Z"), async () => {
      const stands = { ...jury, on, ...more };
      const { id } = valued(await logPerformance(duo.soloist, duo.pieceId, stands));
      const change = { ...stands, performanceId: id, revision: 0, editionNumber: 2 };
      expect(kindOf(await changePerformance(duo.pianist, duo.pieceId, change))).toBe(kind);
      if (kind === "done") return;
      // Everything else is changed without a word about it.
      const place = { ...change, editionNumber: 1, place: "Larkfield" };
      valued(await changePerformance(duo.pianist, duo.pieceId, place));
      const said = { ...change, revision: 1, editionWasWrong: true };
      expect(valued(await changePerformance(duo.pianist, duo.pieceId, said)).editionNumber).toBe(2);
      expect((await changes(id))[0]).toMatchObject({
        ...{ by: duo.pianist.name, before: { editionNumber: 1 }, after: { editionNumber: 2 } },
      });
    });
  });

  test.each([
    ["startsAt", "25:00"],
    ["startsAt", "9:30"],
    ["result", "x".repeat(300)],
    ["on", "2026-02-30"],
    ["revision", -1],
  ])("with %s %s is refused", async (field, value) => {
    const { id } = await log();
    const change = { ...jury, performanceId: id, revision: 0, [field]: value };
    expect(kindOf(await changePerformance(duo.pianist, duo.pieceId, change))).toBe("invalid-input");
  });

  test("a performance of another piece is not reached through one’s own", async () => {
    const { id } = await log();
    const other = await bringDuo({ title: "Another" });
    await freeze(other);
    const { pianist, pieceId } = other;
    const change = { ...jury, performanceId: id, revision: 0 };
    expect(kindOf(await changePerformance(pianist, pieceId, change))).toBe("not-found");
    expect(kindOf(await removePerformance(pianist, pieceId, { performanceId: id }))).toBe("not-found");
    const taken = { performanceId: id, sections: [0] };
    expect(kindOf(await takeRunTimings(pianist, pieceId, taken))).toBe("not-found");
    expect(kindOf(await listPerformanceChanges(pianist, pieceId, { performanceId: id }))).toBe("not-found");
  });
});

describe("a stopwatch", () => {
  // 24 bars of two seconds, in three sections of eight bars.
  const run = () => ({
    ...{ runId: randomUUID(), editionNumber: 1, performanceId: null as string | null },
    ...{ startedAt: "2026-02-10T18:30:00.000Z", byDeviceClock: false, firstSection: 0 },
    ...{
      lapsMilliseconds: [15_500, 17_250, 18_000],
      on: "2026-02-10",
      startsAt: "19:30",
      name: "Run-through",
    },
  });

  test("is kept as a run-through, planned beside real, and once however often it is sent", async () => {
    const sent = run();
    const all = await Promise.all([1, 2, 3].map(() => recordRun(duo.soloist, duo.pieceId, sent)));
    const [first] = all.map(valued);
    expect(new Set(all.map((one) => valued(one).id)).size).toBe(1);
    expect(first).toMatchObject({
      kind: "run-through",
      on: "2026-02-10",
      realSeconds: 50.75,
      plannedSeconds: 48,
    });
    expect(first?.sections?.sections).toEqual([
      { name: "bars 1–8", isLetter: false, plannedSeconds: 16, realSeconds: 15.5 },
      { name: "bars 9–16", isLetter: false, plannedSeconds: 16, realSeconds: 17.25 },
      { name: "bars 17–24", isLetter: false, plannedSeconds: 16, realSeconds: 18 },
    ]);
    expect(valued(await listPerformances(duo.coach, duo.pieceId))).toHaveLength(1);
  });

  test("of an occasion: a later run takes its place, the earlier one stays in the trail, and comes back no more", async () => {
    const { id } = await log();
    const [first, second] = [run(), { ...run(), lapsMilliseconds: [16_000, 16_000, 16_500] }];
    valued(await recordRun(duo.soloist, duo.pieceId, { ...first, performanceId: id }));
    valued(await recordRun(duo.pianist, duo.pieceId, { ...second, performanceId: id }));
    const late = valued(await recordRun(duo.soloist, duo.pieceId, { ...first, performanceId: id }));
    expect(late).toMatchObject({ realSeconds: 48.5, sections: { runId: second.runId } });
    expect((await changes(id))[0]).toMatchObject({
      ...{ what: "stopwatch recorded", before: { realSeconds: 50.75, sections: { runId: first.runId } } },
    });
  });

  test("of a part of the piece leaves the whole time open", async () => {
    const part = { ...run(), firstSection: 1, lapsMilliseconds: [17_000] };
    const kept = valued(await recordRun(duo.soloist, duo.pieceId, part));
    expect(kept.realSeconds).toBeNull();
    expect(kept.sections?.sections.map(({ realSeconds }) => realSeconds)).toEqual([null, 17, null]);
  });

  test("what was tapped for one edition is not moved to another", async () => {
    const kept = valued(await recordRun(duo.soloist, duo.pieceId, run()));
    valued(await takeRunTimings(duo.pianist, duo.pieceId, { performanceId: kept.id, sections: [0] }));
    await freeze(duo);
    const change = { ...jury, performanceId: kept.id, revision: 0 };
    const moved = { ...change, editionNumber: 2 };
    expect(kindOf(await changePerformance(duo.pianist, duo.pieceId, moved))).toBe("conflict");
    expect(kindOf(await changePerformance(duo.pianist, duo.pieceId, change))).toBe("done");
    // № 2 runs half a second shorter by the timing that was taken.
    const other = valued(await logPerformance(duo.soloist, duo.pieceId, { ...jury, editionNumber: 2 }));
    expect(other.plannedSeconds).toBeCloseTo(47.5, 6);
    const back = { ...jury, performanceId: other.id, revision: 0, editionWasWrong: true };
    expect(valued(await changePerformance(duo.pianist, duo.pieceId, back)).plannedSeconds).toBe(48);
  });

  test.each([
    ["more laps than sections", { lapsMilliseconds: [1, 1, 1, 1] }],
    ["no lap", { lapsMilliseconds: [] }],
    ["a lap of no time", { lapsMilliseconds: [0, 1, 1] }],
    ["an edition that is not", { editionNumber: 9 }],
    ["a made up id", { runId: "me" }],
  ])("%s is refused", async (_what, change) => {
    const asked = { ...run(), ...change };
    expect(kindOf(await recordRun(duo.soloist, duo.pieceId, asked))).toBe("invalid-input");
  });

  test("its times become the duo’s own timings, section by section", async () => {
    const { id } = valued(await recordRun(duo.soloist, duo.pieceId, run()));
    valued(await takeRunTimings(duo.pianist, duo.pieceId, { performanceId: id, sections: [1] }));
    const place = (barIndex: number) => ({ barIndex, offset: "0" });
    const settings = async () => valued(await readPiece(duo.pianist, duo.pieceId)).settings.timings;
    expect(await settings()).toEqual([{ from: place(8), to: place(16), seconds: 17.25 }]);
    expect(valued(await readWorkingEdition(duo.pianist, duo.pieceId)).number).toBe(2);
    const refused = [
      await takeRunTimings(duo.coach, duo.pieceId, { performanceId: id, sections: [1] }),
      await takeRunTimings(duo.pianist, duo.pieceId, { performanceId: id, sections: [7] }),
      await takeRunTimings(duo.pianist, duo.pieceId, { performanceId: id, sections: [] }),
    ];
    expect(refused.map(kindOf)).toEqual(["not-allowed", "invalid-input", "invalid-input"]);
  });
});

test("the quick entry of a real time keeps what it does not name", async () => {
  const { id } = valued(await logPerformance(duo.soloist, duo.pieceId, { ...jury, result: "passed" }));
  const real = { performanceId: id, realSeconds: 41.5, remarks: "Held." };
  expect(valued(await recordRealTime(duo.pianist, duo.pieceId, real))).toMatchObject({
    ...{ result: "passed", realSeconds: 41.5, remarks: "Held." },
  });
});

test("the coach and the reader write nothing", async () => {
  const { id } = await log();
  const named = { performanceId: id };
  for (const person of [duo.coach, duo.reader]) {
    expect(kindOf(await removePerformance(person, duo.pieceId, named))).toBe("not-allowed");
    expect(kindOf(await changePerformance(person, duo.pieceId, { ...jury, ...named, revision: 0 }))).toBe(
      "not-allowed",
    );
  }
  expect(await database().performance.count({ where: { pieceId: duo.pieceId } })).toBe(1);
});
