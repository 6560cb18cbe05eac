import { beforeEach, describe, expect, test } from "vitest";
import type { ActionResult } from "@/app/_data/action-result";
import { type KeptRuns, keptRuns } from "@/app/_stopwatch/kept-runs";
import { type Run, startRun, tapRun } from "@/app/_stopwatch/run";
import { type SendRun, sendRun } from "@/app/_stopwatch/send-run";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { memoryStorage } from "../_offline/memory-storage";

const sections = [{ name: "A", isLetter: true, plannedSeconds: 10 }];
const target = { performanceId: null, name: "Run-through", place: "", remarks: "" };

function runOf(last: number): Run {
  const start = {
    ...{ pieceId: "p", pieceTitle: "Concertino", editionNumber: 1, limitSeconds: null, sections },
    ...{ performanceId: null, firstSection: 0 },
  };
  const run = startRun(start, `0199c0de-0000-7000-8000-00000000000${last}`, 1_000_000 + last);
  return { ...tapRun(run, 1_010_000), target };
}

let storage: ReturnType<typeof memoryStorage>;
let kept: KeptRuns;
beforeEach(() => {
  storage = memoryStorage();
  kept = keptRuns("nerys", storage);
});

describe("runs on the device", () => {
  test("are there again after a reload, the last one first, each person’s own", () => {
    for (const last of [1, 3, 2]) kept.keep(runOf(last));
    expect(keptRuns("nerys", storage).list()).toEqual([runOf(3), runOf(2), runOf(1)]);
    expect(keptRuns("matthis", storage).list()).toEqual([]);
    kept.letGo(runOf(2).runId);
    expect(kept.list()).toHaveLength(2);
  });

  test("what is no run of ours is passed over and left alone", () => {
    storage.setItem("colla-run-nerys-x", "{");
    storage.setItem("colla-run-nerys-y", JSON.stringify({ ...runOf(1), taps: [-1] }));
    storage.setItem("colla-theme", "stage");
    kept.keep(runOf(2));
    expect(kept.list()).toEqual([runOf(2)]);
    expect(storage.length).toBe(4);
  });

  test("a browser that keeps nothing is noticed", () => {
    const full = {
      ...memoryStorage(),
      setItem: () => {
        throw new Error("full");
      },
    };
    expect(keptRuns("nerys", full).keep(runOf(1))).toBe(false);
  });
});

describe("sending", () => {
  const sent: unknown[] = [];
  const answering =
    (answer: ActionResult<PerformanceRecord> | null): SendRun =>
    async (input) => {
      sent.push(input);
      if (answer === null) throw new TypeError("no connection");
      return answer;
    };
  const performance = { id: "x" } as PerformanceRecord;
  beforeEach(() => {
    sent.length = 0;
    kept.keep(runOf(1));
  });

  test("is let go of once the server has it", async () => {
    const done = await sendRun(kept, runOf(1), answering({ ok: true, value: performance }));
    expect(done).toEqual({ kind: "kept", performance });
    expect(kept.list()).toEqual([]);
  });

  test.each([
    ["no connection", null],
    ["signed out", { ok: false, kind: "signed-out", sentence: "Sign in." } as const],
    ["too many tries", { ok: false, kind: "rate-limited", sentence: "Wait." } as const],
  ])("%s: it stays and goes later", async (_what, answer) => {
    expect(await sendRun(kept, runOf(1), answering(answer))).toEqual({ kind: "not sent" });
    expect(kept.list()).toEqual([runOf(1)]);
  });

  test("refused: it stays, with the reason", async () => {
    const answer = { ok: false, kind: "not-found", sentence: "There is nothing here." } as const;
    expect((await sendRun(kept, runOf(1), answering(answer))).kind).toBe("refused");
    expect(kept.list()).toEqual([{ ...runOf(1), refusal: "There is nothing here." }]);
  });

  test("asked twice at once, it goes once", async () => {
    const send = answering({ ok: true, value: performance });
    await Promise.all([1, 2].map(() => sendRun(kept, runOf(1), send)));
    expect(sent).toHaveLength(1);
  });
});
