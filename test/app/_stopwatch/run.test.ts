import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  behindPlan,
  canUndo,
  isLastSection,
  lapsOf,
  type Run,
  runSchema,
  sectionOf,
  startRun,
  stopRun,
  tapRun,
  timingsOf,
  toSend,
  undoRun,
} from "@/app/_stopwatch/run";

const noon = new Date(2026, 1, 10, 19, 30, 0).getTime();
const sections = ["A", "B", "C"].map((name) => ({ name, isLetter: true, plannedSeconds: 10 }));
const start = (firstSection = 0): Run =>
  startRun(
    {
      ...{ pieceId: "p", pieceTitle: "Concertino", editionNumber: 3, limitSeconds: 60, sections },
      ...{ performanceId: null, firstSection },
    },
    "0199c0de-0000-7000-8000-000000000001",
    noon,
  );
const at = (seconds: number) => noon + seconds * 1000;

describe("a run", () => {
  test("a tap ends a section, the tap of the last one the run", () => {
    const run = [9, 21, 30].reduce((one, seconds) => tapRun(one, at(seconds)), start());
    expect(run).toMatchObject({ taps: [9000, 21_000, 30_000], stoppedAt: 30_000 });
    expect(lapsOf(run)).toEqual([9000, 12_000, 9000]);
    expect(timingsOf(run).map(({ realSeconds }) => realSeconds)).toEqual([9, 12, 9]);
    expect(tapRun(run, at(40))).toBe(run);
    expect(runSchema.parse(run)).toEqual(run);
  });

  test("a finger that comes down twice counts once", () => {
    const run = tapRun(start(), at(9));
    expect(tapRun(run, at(9.3))).toBe(run);
    expect(tapRun(start(), at(0.2)).taps).toEqual([]);
  });

  test("stopped inside a section, that one has no time", () => {
    const run = stopRun(tapRun(start(), at(9)), at(12));
    expect(timingsOf(run).map(({ realSeconds }) => realSeconds)).toEqual([9, null, null]);
  });

  test("from a letter on", () => {
    const run = tapRun(start(1), at(11));
    expect(timingsOf(run).map(({ realSeconds }) => realSeconds)).toEqual([null, 11, null]);
    expect([sectionOf(run), isLastSection(run)]).toEqual([2, true]);
  });

  test("behind the plan is told at the end of a section", () => {
    expect(behindPlan(start())).toBeNull();
    expect(behindPlan(tapRun(tapRun(start(), at(9)), at(23)))).toBe(3);
    expect(behindPlan(tapRun(start(1), at(8)))).toBe(-2);
  });

  test("taking back the stop, the last tap, and no more", () => {
    const one = tapRun(start(), at(9));
    expect(undoRun(stopRun(one, at(12)))).toEqual(one);
    expect(undoRun(one)).toEqual(start());
    expect([canUndo(start()), canUndo(one), canUndo(stopRun(start(), at(1)))]).toEqual([false, true, true]);
    const ended = [9, 21, 30].reduce((run, seconds) => tapRun(run, at(seconds)), start());
    expect(undoRun(ended)).toMatchObject({ taps: [9000, 21_000], stoppedAt: null });
  });

  test("the laps add up to the last tap, whatever was touched", () => {
    const touches = fc.array(
      fc.record({ what: fc.constantFrom("tap", "undo", "stop"), after: fc.nat(20_000) }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(touches, (done) => {
        let [run, now] = [start(), noon];
        for (const { what, after } of done) {
          now += after;
          run = what === "tap" ? tapRun(run, now) : what === "undo" ? undoRun(run) : stopRun(run, now);
        }
        expect(lapsOf(run).reduce((sum, lap) => sum + lap, 0)).toBe(run.taps.at(-1) ?? 0);
        expect(lapsOf(run).every((lap) => lap >= 500)).toBe(true);
        expect(run.taps.length).toBeLessThanOrEqual(3);
        expect(runSchema.parse(run)).toEqual(run);
      }),
    );
  });

  test("is sent with the local date and time of its start", () => {
    const target = { performanceId: null, name: "Run-through", place: "", remarks: "" };
    expect(toSend(tapRun(start(), at(9)), target)).toMatchObject({
      ...{ on: "2026-02-10", startsAt: "19:30", lapsMilliseconds: [9000], name: "Run-through" },
    });
  });
});
