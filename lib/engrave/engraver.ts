import type { ScreenLayoutName } from "./engrave-layout";
import type { EngraveJob, EngraveResults, EngraverCode, ScreenMusic } from "./engrave-message";
import { EngraveFailure } from "./engrave-problem";
import { EngraveThread, type JobListener } from "./engrave-thread";
import type { EngravedSystem, ScreenEngraving } from "./screen-engraving";

/** More would wait longer than anybody does. */
const mostWaiting = 100;
/** An engraver holds some hundred megabytes: it is let go when nobody has needed it for so long. */
const idleMilliseconds = 120_000;

interface Desk {
  readonly name: DeskName;
  thread: EngraveThread | null;
  waiting: number;
  /** Ends when all jobs so far have. */
  last: Promise<unknown>;
  idle: NodeJS.Timeout | null;
}

/** Somebody waits at a passage while it is drawn: it has a thread of its own beside the one for whole pieces. */
type DeskName = "pieces" | "passages";
const deskFor = (kind: EngraveJob["kind"]): DeskName => (kind === "passage" ? "passages" : "pieces");
/** After so many jobs a thread is replaced. A passage is small, and what its thread has read is worth keeping. */
const mostJobs: Readonly<Record<DeskName, number>> = { pieces: 40, passages: 1000 };

// Kept on the global object: a second copy of this module must not start a second engraver.
const holder = globalThis as typeof globalThis & {
  collaEngravers?: Map<DeskName, Desk>;
  /** Held after its thread has ended, so that the next one need not compile it: that takes three seconds of processor. */
  collaEngraverCode?: EngraverCode;
};

function desk(name: DeskName): Desk {
  holder.collaEngravers ??= new Map();
  const found = holder.collaEngravers.get(name);
  const made = found ?? { name, thread: null, waiting: 0, last: Promise.resolve(), idle: null };
  holder.collaEngravers.set(name, made);
  return made;
}

/**
 * Engraves a score for a screen, one system to a picture, in a thread of its own. Jobs wait for one another.
 *
 * @param job.musicXml MusicXML text; or instead the bytes of a source with the parts to draw and the cuts to carry out
 * and mark, which leaves all of the work to the thread. Ids of measures and notes come back in the pictures.
 * @param job.onProgress from 0 to 1.
 * @param job.onSystem each system as soon as it is drawn, from the first.
 * @throws EngraveFailure when the score cannot be engraved or too much is waiting.
 */
export function engraveScreen(
  job: ScreenMusic & {
    readonly layout: ScreenLayoutName;
    readonly onProgress?: (progress: number) => void;
    readonly onSystem?: (system: EngravedSystem, systemCount: number) => void;
  },
): Promise<ScreenEngraving> {
  const { layout, onProgress, onSystem } = job;
  const music: ScreenMusic =
    "source" in job
      ? { source: job.source, partIds: job.partIds, cuts: job.cuts }
      : { musicXml: job.musicXml, condensesRests: job.condensesRests };
  return runEngraveJob<"screen">({ kind: "screen", music, layout }, { onProgress, onSystem });
}

/** Queues a job for the thread that engraves. A thread that dies under a job is replaced, and the job tried once more. */
export async function runEngraveJob<K extends EngraveJob["kind"]>(
  job: Extract<EngraveJob, { kind: K }>,
  listener: JobListener = {},
): Promise<EngraveResults[K]> {
  const queue = desk(deskFor(job.kind));
  if (queue.waiting >= mostWaiting)
    throw new EngraveFailure({ kind: "engraver-busy", waiting: queue.waiting });
  queue.waiting += 1;
  const mine = queue.last.then(() => runWithRetry(queue, job, listener));
  queue.last = mine.then(settle, settle);
  // The thread answers each kind of job with its own kind of result.
  return mine as Promise<EngraveResults[K]>;

  function settle(): void {
    queue.waiting -= 1;
    if (queue.idle) clearTimeout(queue.idle);
    queue.idle = setTimeout(() => end(queue), idleMilliseconds).unref();
  }
}

async function runWithRetry(queue: Desk, job: EngraveJob, listener: JobListener): Promise<unknown> {
  if (queue.idle) clearTimeout(queue.idle);
  try {
    return await freshThread(queue).run(job, listener);
  } catch (error) {
    const isCrash = error instanceof EngraveFailure && error.problem.kind === "engraver-crashed";
    if (!isCrash) throw error;
    return freshThread(queue).run(job, listener);
  }
}

function freshThread(queue: Desk): EngraveThread {
  if (!queue.thread || queue.thread.isSpent) queue.thread = new EngraveThread(mostJobs[queue.name], keepCode);
  return queue.thread;
}

function keepCode(code: EngraverCode): void {
  holder.collaEngraverCode = code;
}

/** Lets the engravers' memory go; the next job starts another. */
export function endEngraver(): void {
  for (const queue of holder.collaEngravers?.values() ?? []) end(queue);
}

function end(queue: Desk): void {
  if (queue.waiting > 0) return;
  queue.thread?.end();
  queue.thread = null;
}
