import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "../store-problem";

/** An engraving under way in this process. */
export interface EngravingJob<T> {
  /** From 0 to 1. */
  progress: number;
  readonly done: Promise<Result<T, StoreProblem>>;
}

// Kept on the global object, as the database client is: a second copy of this module must find the same jobs.
const holder = globalThis as typeof globalThis & { collaEngravings?: Map<string, EngravingJob<unknown>> };

/** A failed engraving is not tried again at once by everybody who looks. */
const pauseMilliseconds = 60_000;

/**
 * The job of this name, begun if there is none: who asks for what is being made waits for the same job.
 *
 * @param name says all that the result depends on, its kind included.
 */
export function joinJob<T>(
  name: string,
  begin: (report: (progress: number) => void) => Promise<T>,
): EngravingJob<T> {
  holder.collaEngravings ??= new Map();
  const jobs = holder.collaEngravings;
  const running = jobs.get(name);
  if (running) return running as EngravingJob<T>;
  const job: EngravingJob<T> = { progress: 0, done: run() };
  jobs.set(name, job);
  return job;

  async function run(): Promise<Result<T, StoreProblem>> {
    // The job has to be on the list before it can end.
    await Promise.resolve();
    try {
      const made = await begin((progress) => {
        job.progress = Math.max(job.progress, Math.min(1, progress));
      });
      jobs.delete(name);
      return success(made);
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
