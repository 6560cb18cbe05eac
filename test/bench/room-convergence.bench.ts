import { randomInt } from "node:crypto";
import { once } from "node:events";
import os from "node:os";
import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, Worker, workerData } from "node:worker_threads";
import fc from "fast-check";
import { z } from "zod";
import { runSchedule } from "@/test/lib/room/run-schedule";
import { scheduleCodes } from "@/test/lib/room/schedule-codes";

type Row = Record<string, string | number>;

/** Schedules of one seed. */
const batchSize = 10_000;
const batches = 100;

interface Batch {
  readonly seed: number;
  readonly schedules: number;
  readonly operations: number;
  readonly entries: number;
  /** What broke, with the numbers of the smallest schedule that breaks it; null when nothing did. */
  readonly broken: string | null;
}

/**
 * Random schedules of writing, deleting, resolving, breathing, pencilling, settling, restoring, partial and repeated
 * sending in any order, forgeries and restarts, at two to four pages and a server with the real gate and log. After
 * each, all pages, the server and the replayed log have to be the same, and nothing written anywhere may be missing.
 *
 * `COLLA_BENCH_SEED` repeats a run: batch `n` has seed `COLLA_BENCH_SEED + n`. `COLLA_BENCH_BATCHES` makes it shorter.
 */
export const benchmark = {
  name: "Rooms: random schedules end the same at every page, on the server and in the log",
  async run(): Promise<Row[]> {
    const seed = z.coerce
      .number()
      .int()
      .default(randomInt(2 ** 30))
      .parse(process.env.COLLA_BENCH_SEED);
    const count = z.coerce.number().int().min(1).default(batches).parse(process.env.COLLA_BENCH_BATCHES);
    const threads = Math.min(os.availableParallelism(), count);
    console.log(`seeds ${seed} to ${seed + count - 1}, ${batchSize} schedules each, ${threads} threads`);
    const [began, processorBefore] = [performance.now(), process.cpuUsage()];
    const done = await runBatches(seed, count, threads);
    const { user, system } = process.cpuUsage(processorBefore);
    const spent = { seconds: (performance.now() - began) / 1000, processorMs: (user + system) / 1000 };
    const broken = done.filter((batch) => batch.broken !== null);
    for (const batch of broken) console.error(`seed ${batch.seed}: ${batch.broken}`);
    if (broken.length > 0) process.exitCode = 1;
    return [
      toRow(done, seed, spent),
      ...broken.map(({ seed: at, broken: what }) => ({ seed: at, broken: `${what}` })),
    ];
  },
};

interface Spent {
  readonly seconds: number;
  /** Of all threads. */
  readonly processorMs: number;
}

function toRow(done: readonly Batch[], seed: number, { seconds, processorMs }: Spent): Row {
  const sum = (read: (batch: Batch) => number) => done.reduce((total, batch) => total + read(batch), 0);
  const schedules = sum((batch) => batch.schedules);
  return {
    seed: `${seed} to ${seed + done.length - 1}`,
    schedules,
    operations: sum((batch) => batch.operations),
    "log entries": sum((batch) => batch.entries),
    broken: done.filter((batch) => batch.broken !== null).length,
    seconds: Math.round(seconds),
    "processor ms/10,000": Math.round((processorMs / schedules) * 10_000),
  };
}

async function runBatches(seed: number, count: number, threads: number): Promise<Batch[]> {
  const waiting = Array.from({ length: count }, (_, index) => seed + index);
  const done: Batch[] = [];
  const work = async () => {
    const worker = new Worker(fileURLToPath(import.meta.url), { workerData: "room schedules" });
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      worker.postMessage(next);
      const [batch] = (await once(worker, "message")) as [Batch];
      done.push(batch);
      if (done.length % 10 === 0) console.log(`${done.length * batchSize} schedules`);
    }
    await worker.terminate();
  };
  await Promise.all(Array.from({ length: threads }, work));
  return done;
}

/** Stops at the first schedule that breaks, and makes it as small as it can be. */
function runBatch(seed: number): Batch {
  let [schedules, operations, entries] = [0, 0, 0];
  const property = fc.property(scheduleCodes({ min: 4, max: 12 }), (codes) => {
    const done = runSchedule(codes);
    schedules += 1;
    operations += done.operations;
    entries += done.entries;
  });
  const { failed, counterexample, errorInstance } = fc.check(property, { seed, numRuns: batchSize });
  const broken = failed ? `${errorInstance}: ${JSON.stringify(counterexample)}` : null;
  return { seed, schedules, operations, entries, broken };
}

if (!isMainThread && workerData === "room schedules")
  parentPort?.on("message", (seed: number) => parentPort?.postMessage(runBatch(seed)));
