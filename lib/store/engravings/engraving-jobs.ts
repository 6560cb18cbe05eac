import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "../store-problem";
import type { EngravingSummary } from "./engraving-record";

/** An engraving under way in this process. */
export interface EngravingJob {
  /** From 0 to 1. */
  progress: number;
  readonly done: Promise<Result<EngravingSummary, StoreProblem>>;
}

// Kept on the global object, as the database client is: a second copy of this module must find the same jobs.
const holder = globalThis as typeof globalThis & { collaEngravings?: Map<string, EngravingJob> };

/** A failed engraving is not tried again at once by everybody who looks. */
const pauseMilliseconds = 60_000;

/** The job of this name, begun if there is none: who asks for what is being made waits for the same job. */
export function joinJob(
  name: string,
  begin: (report: (progress: number) => void) => Promise<EngravingSummary>,
): EngravingJob {
  holder.collaEngravings ??= new Map();
  const jobs = holder.collaEngravings;
  const running = jobs.get(name);
  if (running) return running;
  const job: EngravingJob = { progress: 0, done: run() };
  jobs.set(name, job);
  return job;

  async function run(): Promise<Result<EngravingSummary, StoreProblem>> {
    // The job has to be on the list before it can end.
    await Promise.resolve();
    try {
      const summary = await begin((progress) => {
        job.progress = Math.max(job.progress, Math.min(1, progress));
      });
      jobs.delete(name);
      return success(summary);
    } catch (error) {
      setTimeout(() => jobs.delete(name), pauseMilliseconds).unref();
      return failure(toProblem(name, error));
    }
  }
}

/** This is the edge of the process for work that nobody waits for: what went wrong is logged here, once. */
function toProblem(name: string, error: unknown): StoreProblem {
  console.error("engraving failed:", name, error);
  const sentence =
    error instanceof EngraveFailure
      ? sayEngraveProblem(error.problem)
      : "The score could not be engraved. The file is kept; try again in a minute.";
  return { kind: "not-engraved", sentence };
}
