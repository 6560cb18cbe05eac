import type { Engine } from "@/app/_sound/player";

/** An engine whose clock the test turns, and that writes down what would be heard. */
export class FakeEngine implements Engine {
  time = 10;
  /** "c4" struck at a moment; hushed ones are taken out again. */
  readonly struck: { midi: number; at: number }[] = [];
  readonly released: { midi: number; at: number }[] = [];
  readonly clicks: { isFirst: boolean; at: number }[] = [];
  isClosed = false;
  /** From when on something is heard; infinity while the gate is closed. */
  opensAt = Number.POSITIVE_INFINITY;
  closesAt = Number.POSITIVE_INFINITY;
  latencySeconds = 0;
  loads: (() => void) | null = null;
  failsToLoad = false;

  now(): number {
    return this.time;
  }
  latency(): number {
    return this.latencySeconds;
  }
  async wake(): Promise<void> {}
  load(onProgress: (done: number) => void): Promise<void> {
    onProgress(0.5);
    return this.failsToLoad ? Promise.reject(new Error("no sounds")) : Promise.resolve();
  }
  setVoices(): void {}
  strike({ midi }: { midi: number }, at: number): void {
    this.checkMoment(at);
    this.struck.push({ midi, at });
  }
  release({ midi }: { midi: number }, at: number): void {
    this.released.push({ midi, at });
  }
  count(isFirst: boolean, at: number): void {
    this.checkMoment(at);
    this.clicks.push({ isFirst, at });
  }
  hush(until: number): void {
    const isHeard = ({ at }: { at: number }) => at < this.time;
    for (const list of [this.struck, this.clicks] as { at: number }[][])
      list.splice(0, list.length, ...list.filter(isHeard));
    this.closesAt = this.time;
    this.deafUntil = until;
  }
  deafUntil = 0;
  openGate(at: number): void {
    if (at < this.deafUntil) throw new RangeError(`The gate opens at ${at}, before ${this.deafUntil}`);
    this.opensAt = at;
    this.closesAt = Number.POSITIVE_INFINITY;
  }
  closeGate(at: number): void {
    this.closesAt = at;
  }
  close(): void {
    this.isClosed = true;
  }

  /** What is sent for a moment that is over would come late. */
  private checkMoment(at: number): void {
    if (at < this.time - 1e-9) throw new RangeError(`Sent for ${at} at ${this.time}`);
    if (at < this.opensAt - 1e-9)
      throw new RangeError(`Sent for ${at}, and the gate opens at ${this.opensAt}`);
  }
}
