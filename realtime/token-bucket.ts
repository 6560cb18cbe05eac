/** Lets through `perSecond` units in the long run and `burst` at once. */
export class TokenBucket {
  #left: number;
  #at: number;

  constructor(
    private readonly perSecond: number,
    private readonly burst: number,
    private readonly now: () => number = () => performance.now(),
  ) {
    this.#left = burst;
    this.#at = now();
  }

  /** Whether `units` are there. */
  has(units: number): boolean {
    const now = this.now();
    this.#left = Math.min(this.burst, this.#left + ((now - this.#at) / 1000) * this.perSecond);
    this.#at = now;
    return units <= this.#left;
  }

  /** Takes `units` when they are there; false, and takes nothing, when they are not. */
  take(units: number): boolean {
    if (!this.has(units)) return false;
    this.#left -= units;
    return true;
  }
}
