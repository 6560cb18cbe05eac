import type { Page } from "playwright-core";

/** A task of the page's main thread that was not asked for by the test driver. Milliseconds. */
export interface MainTask {
  /** By the clock. */
  readonly lasts: number;
  /** What the processor worked on it: no other program of the machine makes it longer. */
  readonly processor: number;
  /** What the work went to, by the browser's names for it; the most first. */
  readonly parts: readonly (readonly [name: string, processor: number])[];
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: {
    readonly name?: string;
    readonly data?: { readonly frames?: readonly TraceFrame[] };
    /** What of the browser's own code has asked for a task. */
    readonly src_file?: string;
  };
}

interface TraceFrame {
  readonly processId?: number;
  readonly parent?: string;
}

const taskName = "RunTask";
const categories = ["devtools.timeline", "disabled-by-default-devtools.timeline", "v8", "toplevel"];
/** From here come the commands of whoever drives the browser: the page does not ask for these tasks. */
const driver = "ipc/ipc_mojo_bootstrap.cc";

/** The tasks of a page's main thread while something is done on it, in order; without those of the test driver itself. */
export async function tasksOf(page: Page, act: () => Promise<void>): Promise<MainTask[]> {
  const browser = page.context().browser();
  if (!browser) throw new RangeError("the page's browser cannot be traced");
  await browser.startTracing(page, { categories });
  let trace: Buffer;
  try {
    await act();
  } finally {
    trace = await browser.stopTracing();
  }
  const { traceEvents } = JSON.parse(trace.toString("utf8")) as { traceEvents: TraceEvent[] };
  return readTasks(traceEvents);
}

function readTasks(events: readonly TraceEvent[]): MainTask[] {
  const started = events.find(({ name }) => name === "TracingStartedInBrowser");
  const pid = started?.args?.data?.frames?.find(({ parent }) => parent === undefined)?.processId;
  const main = events.find(
    (event) => event.name === "thread_name" && event.pid === pid && event.args?.name === "CrRendererMain",
  );
  if (!main) throw new RangeError("the trace has no main thread of the page");
  const own = events
    .filter(({ ph, pid: at, tid }) => ph === "X" && at === main.pid && tid === main.tid)
    .sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  const tasks: TraceEvent[][] = [];
  let end = Number.NEGATIVE_INFINITY;
  for (const event of own) {
    if (event.name === taskName && event.ts >= end) {
      tasks.push([event]);
      end = event.ts + (event.dur ?? 0);
    } else if (event.ts < end) tasks.at(-1)?.push(event);
  }
  return tasks.filter((task) => !task.some(({ args }) => args?.src_file === driver)).map(readTask);
}

/** Each part without those within it. */
function readTask(events: readonly TraceEvent[]): MainTask {
  const parts = new Map<string, number>();
  const open: TraceEvent[] = [];
  const add = (name: string, work: number) => parts.set(name, (parts.get(name) ?? 0) + work / 1000);
  for (const event of events) {
    while (open.length > 0 && endOf(open.at(-1) as TraceEvent) <= event.ts) open.pop();
    const around = open.at(-1);
    if (around) add(around.name, -(event.tdur ?? 0));
    add(event.name, event.tdur ?? 0);
    open.push(event);
  }
  const [task] = events;
  return {
    lasts: (task?.dur ?? 0) / 1000,
    processor: (task?.tdur ?? 0) / 1000,
    parts: [...parts].sort((a, b) => b[1] - a[1]),
  };
}

const endOf = ({ ts, dur = 0 }: TraceEvent) => ts + dur;
