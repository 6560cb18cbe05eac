import { type Run, runSchema } from "./run";

/** Where runs are kept: the browser's own storage, which a reload, a crash and a locked screen leave alone. */
export type RunStorage = Pick<Storage, "getItem" | "setItem" | "removeItem" | "key" | "length">;

const changed = "colla-runs-changed";

/** One entry a run, so that two pages never write over each other's. Runs belong to one person. */
function keyOf(userId: string, runId: string): string {
  return `${prefixOf(userId)}${runId}`;
}

function prefixOf(userId: string): string {
  return `colla-run-${userId}-`;
}

/**
 * Stopwatches of one person that the server does not have yet.
 *
 * An entry that is no run of ours (any more) is passed over and left alone.
 */
export class KeptRuns {
  constructor(
    private readonly userId: string,
    private readonly storage: RunStorage,
  ) {}

  /** The one begun last first. */
  list(): Run[] {
    const keys = Array.from({ length: this.storage.length }, (_, index) => this.storage.key(index));
    return keys
      .flatMap((key) =>
        key?.startsWith(prefixOf(this.userId)) ? (readRun(this.storage.getItem(key)) ?? []) : [],
      )
      .sort((a, b) => b.startedAt - a.startedAt);
  }

  /** @returns false when the browser keeps nothing, because it is full or told not to. */
  keep(run: Run): boolean {
    try {
      this.storage.setItem(keyOf(this.userId, run.runId), JSON.stringify(run));
      return true;
    } catch {
      return false;
    } finally {
      tellChanged();
    }
  }

  letGo(runId: string): void {
    this.storage.removeItem(keyOf(this.userId, runId));
    tellChanged();
  }
}

function readRun(text: string | null): Run | null {
  try {
    return runSchema.safeParse(JSON.parse(text ?? "null")).data ?? null;
  } catch {
    return null; // Not JSON, so not ours.
  }
}

function tellChanged(): void {
  if (typeof window !== "undefined") window.dispatchEvent(new Event(changed));
}

/** Calls `listener` whenever a run is kept or let go, in this page or another. @returns stops it. */
export function onRunsChanged(listener: () => void): () => void {
  window.addEventListener(changed, listener);
  window.addEventListener("storage", listener);
  return () => {
    window.removeEventListener(changed, listener);
    window.removeEventListener("storage", listener);
  };
}

/** The browser's storage; null where it has none for us. */
export function browserStorage(): RunStorage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
