import os from "node:os";
import type { Page } from "playwright-core";

/*
 * `watch`, `forget` and `read` run in the measured page. Each is sent there as text, so none can name anything outside
 * itself.
 */

type Watched = typeof globalThis & { collaLongTasks?: PerformanceObserver; collaLengths?: number[] };

function watch(): void {
  const page = globalThis as Watched;
  const lengths: number[] = [];
  page.collaLengths = lengths;
  page.collaLongTasks = new PerformanceObserver((list) => {
    lengths.push(...list.getEntries().map(({ duration }) => duration));
  });
  page.collaLongTasks.observe({ type: "longtask" });
}

function forget(): void {
  const page = globalThis as Watched;
  page.collaLongTasks?.takeRecords();
  page.collaLengths?.splice(0);
}

/** After two frames, so that a task that ends with the act is told of. */
async function read(): Promise<number[]> {
  const page = globalThis as Watched;
  for (let frames = 0; frames < 2; frames += 1) await new Promise(requestAnimationFrame);
  await new Promise((resolve) => setTimeout(resolve, 0));
  const left = page.collaLongTasks?.takeRecords().map(({ duration }) => duration) ?? [];
  return [...(page.collaLengths ?? []), ...left];
}

/** Lengths of the tasks over 50 ms on the main thread of a page, in milliseconds, and what else the machine did. */
export interface LongTasks {
  readonly lengths: readonly number[];
  /** Of the last minute. */
  readonly load: number;
}

/** Before the page is opened. */
export async function watchLongTasks(page: Page): Promise<void> {
  await page.addInitScript(watch);
}

/** The long tasks of something that is done on a page that is watched. */
export async function longTasksOf(page: Page, act: () => Promise<void>): Promise<LongTasks> {
  await page.evaluate(forget);
  await act();
  const lengths = await page.evaluate(read);
  return { lengths, load: os.loadavg()[0] ?? Number.NaN };
}
