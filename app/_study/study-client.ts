import type { StudyTerms } from "@/lib/study/open-study";
import type { FromStudy, StudyJob, StudyResults, ToStudy } from "./study-message";

/** Whether questions can be asked. `unreadable` carries a sentence for the reader. */
export type StudyState =
  | { readonly kind: "opening" }
  | { readonly kind: "open" }
  | { readonly kind: "unreadable"; readonly sentence: string };

export interface AskOptions {
  /** From 0 to 1. */
  readonly onProgress?: (done: number) => void;
  /** Ends the job; the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal;
}

/** The job could not be done. Its message is for developers. */
export class StudyFailure extends Error {
  override readonly name = "StudyFailure";
}

interface Waiting {
  readonly job: StudyJob;
  readonly onProgress: (done: number) => void;
  readonly resolve: (value: unknown) => void;
  readonly reject: (reason: unknown) => void;
}

/** The study of one piece in a worker of its own. What is asked before it is open waits. */
export class StudyClient {
  private readonly worker: Worker;
  private readonly waiting = new Map<number, Waiting>();
  private readonly listeners = new Set<() => void>();
  private current: StudyState = { kind: "opening" };
  private lastId = 0;

  /** @param onScripts is told from where the worker was loaded. */
  constructor(
    makeWorker: () => Worker,
    private readonly onScripts: (paths: readonly string[]) => void = () => {},
  ) {
    this.worker = makeWorker();
    this.worker.onmessage = ({ data }: MessageEvent<FromStudy>) => this.hear(data);
    this.worker.onerror = () => this.end("The worker has ended.");
  }

  /** @param bytes are given away and cannot be used afterwards. */
  open(bytes: Uint8Array<ArrayBuffer>, terms: StudyTerms): void {
    this.post({ kind: "open", bytes, terms }, [bytes.buffer]);
  }

  /** The music could not be fetched or read. */
  giveUp(sentence: string): void {
    this.become({ kind: "unreadable", sentence });
  }

  /** @throws StudyFailure (rejects) when the job fails, the signal's reason when it is cancelled. */
  ask<Kind extends StudyJob["kind"]>(
    job: Extract<StudyJob, { kind: Kind }>,
    { onProgress = () => {}, signal }: AskOptions = {},
  ): Promise<StudyResults[Kind]> {
    this.lastId += 1;
    const id = this.lastId;
    return new Promise((resolve, reject) => {
      signal?.throwIfAborted();
      if (this.current.kind === "unreadable") throw new StudyFailure(this.current.sentence);
      this.waiting.set(id, {
        job,
        onProgress,
        resolve: (value) => resolve(value as StudyResults[Kind]),
        reject,
      });
      signal?.addEventListener("abort", () => this.cancel(id, signal.reason), { once: true });
      if (this.current.kind === "open") this.post({ kind: "ask", id, job });
    });
  }

  readonly state = (): StudyState => this.current;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  close(): void {
    this.worker.terminate();
    this.end("The study was closed.");
  }

  private post(message: ToStudy, transfer: Transferable[] = []): void {
    this.worker.postMessage(message, transfer);
  }

  private become(state: StudyState): void {
    this.current = state;
    for (const listener of this.listeners) listener();
    if (state.kind === "unreadable") this.end(state.sentence);
    if (state.kind === "open") {
      for (const [id, { job }] of this.waiting) this.post({ kind: "ask", id, job });
    }
  }

  private cancel(id: number, reason: unknown): void {
    const waiting = this.waiting.get(id);
    if (!waiting) return;
    this.waiting.delete(id);
    this.post({ kind: "cancel", id });
    waiting.reject(reason);
  }

  private end(why: string): void {
    const left = [...this.waiting.values()];
    this.waiting.clear();
    for (const { reject } of left) reject(new StudyFailure(why));
  }

  private hear(message: FromStudy): void {
    if (message.kind === "opened") {
      this.onScripts(message.scripts);
      this.become({ kind: "open" });
    } else if (message.kind === "unreadable") this.become(message);
    else this.hearOfJob(message);
  }

  private hearOfJob(message: Exclude<FromStudy, { kind: "opened" | "unreadable" }>): void {
    const waiting = this.waiting.get(message.id);
    if (!waiting) return;
    if (message.kind === "progress") {
      waiting.onProgress(message.done);
      return;
    }
    this.waiting.delete(message.id);
    if (message.kind === "answer") waiting.resolve(message.value);
    else waiting.reject(new StudyFailure(message.detail));
  }
}
