/**
 * Hands things on together, at most once an interval: what comes first goes at once, what comes soon after it
 * goes when the interval is over. Nothing is left lying.
 */
export class Gather<T> {
  readonly #waiting = new Set<T>();
  #timer: NodeJS.Timeout | null = null;

  constructor(
    private readonly intervalMs: number,
    private readonly handOn: (things: ReadonlySet<T>) => void,
  ) {}

  add(thing: T): void {
    this.#waiting.add(thing);
    if (this.#timer === null) this.#hand();
  }

  /** Forgets what waits. */
  clear(): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    this.#waiting.clear();
  }

  #hand(): void {
    const things = new Set(this.#waiting);
    this.#waiting.clear();
    this.#timer = setTimeout(() => {
      this.#timer = null;
      if (this.#waiting.size > 0) this.#hand();
    }, this.intervalMs).unref();
    this.handOn(things);
  }
}
