import path from "node:path";
import process from "node:process";
import { Worker } from "node:worker_threads";
import type { EngraveJob, EngraveReply, EngraverCode } from "./engrave-message";
import { EngraveFailure } from "./engrave-problem";

/** What a job is given back while it runs. */
export interface JobListener {
  readonly onProgress?: (progress: number) => void;
  readonly onSystem?: (
    system: Extract<EngraveReply, { kind: "system" }>["system"],
    systemCount: number,
  ) => void;
}

/** The engraver's memory at which its thread is replaced. 600 bars of solo and piano take 0.2 to 0.3 GB. */
const mostMemory = 500_000_000;
/** Two thousand bars take half a minute on two busy cores. */
const longestSeconds = 240;

/** The bundled thread: made by the start commands and by the tests' set-up. Read at run time, never bundled again. */
function threadFile(): string {
  return (
    process.env.COLLA_ENGRAVE_WORKER ?? path.resolve(/* turbopackIgnore: true */ "dist", "engrave-worker.mjs")
  );
}

/** One thread with an engraver, for one job at a time. */
export class EngraveThread {
  private readonly worker = new Worker(/* turbopackIgnore: true */ threadFile(), {
    stdout: true,
    stderr: true,
    // Each system passes through as text. With little room for what is young, collecting it took a tenth of the time.
    resourceLimits: { maxYoungGenerationSizeMb: 128 },
  });
  private jobs = 0;
  private memory = 0;
  /** Set when the thread has ended, or may not be used again. */
  isSpent = false;

  /**
   * @param mostJobs after so many the thread is replaced, whatever its memory.
   * @param onCode given the engraver's compiled code when it has started, to be held for the next thread.
   */
  constructor(
    private readonly mostJobs: number,
    onCode: (code: EngraverCode) => void,
  ) {
    this.worker.on("message", (message: EngraveReply | EngraverCode) => {
      if (message.kind === "code") onCode(message);
    });
    // Nobody reads what the engraver says of a score; unread, it would pile up.
    this.worker.stdout.resume();
    this.worker.stderr.resume();
    this.worker.on("exit", () => {
      this.isSpent = true;
    });
    // Without a job, an error only ends the thread.
    this.worker.on("error", () => {
      this.isSpent = true;
    });
    this.worker.unref();
  }

  /**
   * @throws EngraveFailure: `not-engravable` when the job has failed and would fail again, `engraver-crashed` when the
   * thread has ended under it, `engraver-slow` when it took too long.
   */
  run(job: EngraveJob, listener: JobListener): Promise<unknown> {
    const { worker } = this;
    this.jobs += 1;
    const id = this.jobs;
    worker.ref();
    return new Promise<unknown>((resolve, reject) => {
      const timer = setTimeout(
        () => end(new EngraveFailure({ kind: "engraver-slow", seconds: longestSeconds })),
        longestSeconds * 1000,
      );
      const onMessage = (reply: EngraveReply | EngraverCode) => {
        if (reply.kind === "code" || reply.id !== id) return;
        if (reply.kind === "progress") listener.onProgress?.(reply.progress);
        else if (reply.kind === "system") listener.onSystem?.(reply.system, reply.systemCount);
        else {
          this.memory = reply.memory;
          if (reply.kind === "done") finish(() => resolve(reply.value));
          else finish(() => reject(new EngraveFailure({ kind: "not-engravable", detail: reply.detail })));
        }
      };
      const onError = (error: Error) =>
        end(new EngraveFailure({ kind: "engraver-crashed", detail: error.message }));
      const onExit = (code: number) =>
        end(new EngraveFailure({ kind: "engraver-crashed", detail: `ended with ${code}` }));
      const finish = (then: () => void) => {
        clearTimeout(timer);
        worker.off("message", onMessage).off("error", onError).off("exit", onExit);
        worker.unref();
        if (this.jobs >= this.mostJobs || this.memory > mostMemory) this.end();
        then();
      };
      const end = (failure: EngraveFailure) => {
        this.end();
        finish(() => reject(failure));
      };
      worker.on("message", onMessage).on("error", onError).on("exit", onExit);
      worker.postMessage({ id, job });
    });
  }

  end(): void {
    this.isSpent = true;
    void this.worker.terminate();
  }
}
