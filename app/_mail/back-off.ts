const firstSeconds = 60;
const longestSeconds = 4 * 60 * 60;

/** How long to wait after something failed: a minute, then twice as long each time, four hours at most. */
export class BackOff {
  readonly #failed = new Map<string, { readonly tries: number; readonly again: number }>();

  mayTry(who: string, now: Date): boolean {
    return (this.#failed.get(who)?.again ?? 0) <= now.getTime();
  }

  /** @returns seconds until it may be tried again. */
  noteFailure(who: string, now: Date): number {
    const tries = (this.#failed.get(who)?.tries ?? 0) + 1;
    const seconds = Math.min(longestSeconds, firstSeconds * 2 ** (tries - 1));
    this.#failed.set(who, { tries, again: now.getTime() + seconds * 1000 });
    return seconds;
  }

  forget(who: string): void {
    this.#failed.delete(who);
  }
}
