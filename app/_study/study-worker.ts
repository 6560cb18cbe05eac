import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { openStudy, type Study } from "@/lib/study/open-study";
import { type RunningJob, runJob } from "./run-job";
import type { FromStudy, ToStudy } from "./study-message";

/** A job works this long, in milliseconds, before messages are let in: so soon a cancelled one ends. */
const sliceMs = 25;

const tell = (message: FromStudy) => postMessage(message);

let study: Study | null = null;
/** In the order they were asked; those asked for last are wanted first. */
const jobs = new Map<number, RunningJob>();
const { port1: wake, port2: woken } = new MessageChannel();

/** What this worker was loaded from: a page that is opened without a connection needs it too. */
function listScripts(): string[] {
  const loaded = performance.getEntriesByType("resource").map(({ name }) => name);
  return [location.href, ...loaded].map((address) => new URL(address).pathname);
}

function read({ bytes, terms }: Extract<ToStudy, { kind: "open" }>): void {
  const opened = openStudy(bytes, terms);
  if (opened.ok) study = opened.value;
  tell(
    opened.ok
      ? { kind: "opened", scripts: listScripts() }
      : { kind: "unreadable", sentence: sayReadProblem(opened.problem) },
  );
}

/** Works on one job for a slice; true when it ended. */
function work(id: number, job: RunningJob): boolean {
  const until = performance.now() + sliceMs;
  let progress: number | null = null;
  while (performance.now() < until) {
    const step = job.next();
    if (step.done) {
      tell({ kind: "answer", id, value: step.value });
      return true;
    }
    progress = step.value.total > 0 ? step.value.done / step.value.total : 0;
  }
  if (progress !== null) tell({ kind: "progress", id, done: progress });
  return false;
}

function workOn(): void {
  const next = [...jobs].at(-1);
  if (!next) return;
  const [id, job] = next;
  try {
    if (work(id, job)) jobs.delete(id);
  } catch (error) {
    jobs.delete(id);
    tell({ kind: "failed", id, detail: error instanceof Error ? error.message : String(error) });
  }
  if (jobs.size > 0) wake.postMessage(null);
}

woken.onmessage = workOn;

addEventListener("message", ({ data }: MessageEvent<ToStudy>) => {
  if (data.kind === "open") read(data);
  if (data.kind === "cancel") jobs.delete(data.id);
  if (data.kind === "ask" && study) {
    jobs.set(data.id, runJob(study, data.job));
    wake.postMessage(null);
  }
});
