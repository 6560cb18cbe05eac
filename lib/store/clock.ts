import { AsyncLocalStorage } from "node:async_hooks";

const setClock = new AsyncLocalStorage<Date>();

/** The time that goes into what is stored. */
export function now(): Date {
  return setClock.getStore() ?? new Date();
}

/** Does `work` as if at another time: for the demo's history, and for tests of what expires. */
export function runAt<T>(at: Date, work: () => Promise<T>): Promise<T> {
  return setClock.run(at, work);
}
