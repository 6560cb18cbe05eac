import path from "node:path";
import { Worker } from "node:worker_threads";
import type {
  FoundReasons,
  ReasonsQuestion,
  ReasonsReply,
  ReasonsRequest,
  ReasonsSource,
} from "./reasons-message";

/** The bundled thread: made by the start commands and by the tests' set-up. Read at run time, never bundled again. */
function threadFile(): string {
  return path.resolve(/* turbopackIgnore: true */ "dist", "reasons-worker.mjs");
}

/** A thread that has answered nothing for so long while it was asked has lost its way. The choice is ours. */
const longestSilenceMs = 120_000;
/** What was heard is let go when nobody asks for so long. */
const idleMs = 10 * 60_000;

interface Pending {
  readonly settle: (reply: ReasonsReply) => void;
  readonly fail: (error: Error) => void;
}

/** One thread that hears pieces and finds reasons, one question after another. */
export class ReasonsThread {
  private readonly worker: Worker;
  private readonly pending = new Map<number, Pending>();
  private asked = 0;
  private timer: NodeJS.Timeout | undefined;
  /** Set when the thread has ended. */
  isSpent = false;

  constructor(file = threadFile()) {
    this.worker = new Worker(/* turbopackIgnore: true */ file);
    this.worker.on("message", (reply: ReasonsReply) => {
      this.pending.get(reply.id)?.settle(reply);
      this.pending.delete(reply.id);
      this.wait();
    });
    this.worker.on("error", (error: Error) => this.end(error));
    this.worker.on("exit", (code) => this.end(new Error(`the thread that finds reasons ended with ${code}`)));
    this.worker.unref();
  }

  /**
   * @param key hash of all that `readSource` gives, which is called only when the thread does not know it any more.
   * @throws Error if the question cannot be answered, or the thread has ended under it.
   */
  async ask(
    key: string,
    question: ReasonsQuestion,
    readSource: () => Promise<ReasonsSource>,
  ): Promise<FoundReasons> {
    const first = await this.send({ key, question, source: null });
    const reply =
      first.kind === "not-read" ? await this.send({ key, question, source: await readSource() }) : first;
    switch (reply.kind) {
      case "done":
        return reply.reasons;
      case "failed":
        throw new Error(reply.detail);
      case "not-read":
        throw new Error("the thread that finds reasons asked for the source twice");
    }
  }

  end(error = new Error("the thread that finds reasons was ended")): void {
    this.isSpent = true;
    clearTimeout(this.timer);
    for (const { fail } of this.pending.values()) fail(error);
    this.pending.clear();
    void this.worker.terminate();
  }

  private send(request: Omit<ReasonsRequest, "id">): Promise<ReasonsReply> {
    if (this.isSpent) return Promise.reject(new Error("the thread that finds reasons has ended"));
    this.asked += 1;
    const id = this.asked;
    return new Promise((settle, fail) => {
      this.pending.set(id, { settle, fail });
      this.worker.postMessage({ ...request, id });
      this.wait();
    });
  }

  /** Holds the process open while somebody waits, and ends what is lost or no longer used. */
  private wait(): void {
    if (this.isSpent) return;
    clearTimeout(this.timer);
    const isIdle = this.pending.size === 0;
    if (isIdle) this.worker.unref();
    else this.worker.ref();
    const end = () => this.end(new Error("the thread that finds reasons did not answer"));
    this.timer = setTimeout(end, isIdle ? idleMs : longestSilenceMs).unref();
  }
}
