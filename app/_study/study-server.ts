import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { openStudy, type Study } from "@/lib/study/open-study";
import { type RunningJob, runJob } from "./run-job";
import type { FromStudy, ToStudy } from "./study-message";

/** A job works this long, in milliseconds, before messages are let in: so soon a cancelled one ends. */
const sliceMs = 25;

/** Answers the messages of one page, a slice at a time, so that the next message is never far. */
export class StudyServer {
  private study: Study | null = null;
  /** In the order they were asked; the one asked for last is wanted first. */
  private readonly jobs = new Map<number, RunningJob>();
  private readonly turns = new MessageChannel();

  /** @param listScripts the paths the worker was loaded from. */
  constructor(
    private readonly tell: (message: FromStudy) => void,
    private readonly listScripts: () => string[] = () => [],
  ) {
    this.turns.port2.onmessage = () => this.takeTurn();
  }

  hear(message: ToStudy): void {
    if (message.kind === "open") this.open(message);
    if (message.kind === "cancel") this.jobs.delete(message.id);
    if (message.kind === "ask" && this.study) {
      this.jobs.set(message.id, runJob(this.study, message.job));
      this.askForTurn();
    }
  }

  close(): void {
    this.jobs.clear();
    this.turns.port1.close();
  }

  private open({ bytes, terms }: Extract<ToStudy, { kind: "open" }>): void {
    const opened = openStudy(bytes, terms);
    if (!opened.ok) {
      this.tell({ kind: "unreadable", sentence: sayReadProblem(opened.problem) });
      return;
    }
    this.study = opened.value;
    this.tell({ kind: "opened", scripts: this.listScripts() });
  }

  private askForTurn(): void {
    this.turns.port1.postMessage(null);
  }

  private takeTurn(): void {
    const next = [...this.jobs].at(-1);
    if (!next) return;
    const [id, job] = next;
    try {
      if (this.work(id, job)) this.jobs.delete(id);
    } catch (error) {
      this.jobs.delete(id);
      this.tell({ kind: "failed", id, detail: error instanceof Error ? error.message : String(error) });
    }
    if (this.jobs.size > 0) this.askForTurn();
  }

  /** Works on one job for a slice; true when it ended. */
  private work(id: number, job: RunningJob): boolean {
    const until = performance.now() + sliceMs;
    let progress: number | null = null;
    while (performance.now() < until) {
      const step = job.next();
      if (step.done) {
        this.tell({ kind: "answer", id, value: step.value });
        return true;
      }
      progress = step.value.total > 0 ? step.value.done / step.value.total : 0;
    }
    if (progress !== null) this.tell({ kind: "progress", id, done: progress });
    return false;
  }
}
