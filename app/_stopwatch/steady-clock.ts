/** The two clocks of a browser, both in milliseconds. */
export interface Clocks {
  /** Never set back or forward, but on some devices it stands still while they sleep. */
  steady(): number;
  /** Since 1970. Goes on while the device sleeps, and can be set by hand. */
  wall(): number;
}

export const browserClocks: Clocks = { steady: () => performance.now(), wall: () => Date.now() };

/** By so many milliseconds the steady clock falls behind only when it stood still. */
const sleptMilliseconds = 1000;

/**
 * The time since 1970 as a stopwatch needs it: by the steady clock while the page is awake. When the device slept
 * meanwhile, the wall clock tells for how long; a wall clock that was set back is not believed.
 */
export class SteadyClock {
  #anchor: { steady: number; wall: number };
  #hasSlept = false;

  constructor(private readonly clocks: Clocks = browserClocks) {
    this.#anchor = { steady: clocks.steady(), wall: clocks.wall() };
  }

  now(): number {
    const { steady, wall } = this.#anchor;
    const at = wall + (this.clocks.steady() - steady);
    const behind = this.clocks.wall() - at;
    if (behind < sleptMilliseconds) return at;
    this.#hasSlept = true;
    this.#anchor = { steady: this.clocks.steady(), wall: this.clocks.wall() };
    return this.#anchor.wall;
  }

  /** Whether the steady clock stood still at some time. */
  get hasSlept(): boolean {
    return this.#hasSlept;
  }
}
