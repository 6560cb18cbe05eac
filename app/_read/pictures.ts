/** How many pictures are fetched at once. */
const atOnce = 4;

/**
 * The pictures of the open pages, fetched one after the other and then held, so that no turning waits for a connection.
 * Listeners are told when one has come or failed.
 */
export class Pictures {
  private readonly texts = new Map<number, string>();
  private readonly failed = new Set<number>();
  private readonly running = new Set<number>();
  private readonly listeners = new Set<() => void>();
  private queue: readonly number[] = [];
  private isStopped = false;
  /** Counts up with every picture that comes or fails. */
  version = 0;

  /** @param fetchText the picture of a system as SVG; rejects when it does not come. */
  constructor(private readonly fetchText: (index: number) => Promise<string>) {}

  /** Says which are wanted, the most urgent first. What was wanted before and has not begun is wanted no longer. */
  want(indices: readonly number[]): void {
    this.queue = indices;
    this.isStopped = false;
    this.goOn();
  }

  /** Null while it has not come. */
  find(index: number): string | null {
    return this.texts.get(index) ?? null;
  }

  hasFailed(index: number): boolean {
    return this.failed.has(index);
  }

  /** Tries those again that did not come. */
  retry(): void {
    this.failed.clear();
    this.tell();
    this.goOn();
  }

  /** Fetches nothing more until something is wanted again. */
  stop(): void {
    this.isStopped = true;
  }

  /** @returns stops it. */
  subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  private goOn(): void {
    while (!this.isStopped && this.running.size < atOnce) {
      const next = this.queue.find(
        (index) => !this.texts.has(index) && !this.failed.has(index) && !this.running.has(index),
      );
      if (next === undefined) return;
      this.running.add(next);
      void this.fetch(next);
    }
  }

  private async fetch(index: number): Promise<void> {
    const text = await this.fetchText(index).catch(() => null);
    this.running.delete(index);
    if (text === null) this.failed.add(index);
    else this.texts.set(index, text);
    this.tell();
    this.goOn();
  }

  private tell(): void {
    this.version += 1;
    for (const listener of this.listeners) listener();
  }
}
