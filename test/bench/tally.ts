/** When each breath was written, vouched for and seen: all clients run in one process and share its clock. */
export class Tally {
  readonly #writtenAt: number[] = [];
  /** Some random letters, so that two loads of one room never write under one key. */
  readonly #prefix = `b${Math.random().toString(36).slice(2, 8)}-`;
  /** Milliseconds from writing to being vouched for, and to being seen by each of the others. */
  readonly savedMs: number[] = [];
  readonly seenMs: number[] = [];
  #tellComplete: () => void = () => {};

  /** @param witnesses how many others see each breath. */
  constructor(private readonly witnesses: number) {}

  get written(): number {
    return this.#writtenAt.length;
  }

  write(): { number: number; id: string } {
    const number = this.#writtenAt.push(performance.now()) - 1;
    return { number, id: this.#idOf(number) };
  }

  saved(number: number): void {
    this.savedMs.push(performance.now() - (this.#writtenAt[number] ?? Number.NaN));
    this.#look();
  }

  seen(id: string | null): void {
    // What an earlier load wrote is no news.
    if (!id?.startsWith(this.#prefix)) return;
    this.seenMs.push(performance.now() - (this.#writtenAt[this.#numberOf(id)] ?? Number.NaN));
    this.#look();
  }

  /** Settles when everything written is vouched for and seen by all, or after `longestMs`: the rest is then late. */
  untilComplete(longestMs: number): Promise<void> {
    return new Promise((resolve) => {
      const giveUp = setTimeout(resolve, longestMs);
      this.#tellComplete = () => {
        clearTimeout(giveUp);
        resolve();
      };
      this.#look();
    });
  }

  ids(): string[] {
    return this.#writtenAt.map((_, number) => this.#idOf(number));
  }

  #look(): void {
    const isComplete =
      this.savedMs.length >= this.written && this.seenMs.length >= this.written * this.witnesses;
    if (isComplete) this.#tellComplete();
  }

  #idOf(number: number): string {
    return `${this.#prefix}${number}`;
  }

  #numberOf(id: string): number {
    return Number(id.slice(this.#prefix.length));
  }
}
