import { TokenBucket } from "./token-bucket";

export interface FailedKnocksOptions {
  /** So many may fail a second in the long run, and at once. */
  readonly perSecond: number;
  readonly burst: number;
  /** So many addresses are remembered; whoever failed longest ago is forgotten first. */
  readonly mostAddresses?: number;
}

/** Which network addresses knock at the door too often without being let in: they are not even asked who they are. */
export class FailedKnocks {
  readonly #buckets = new Map<string, TokenBucket>();

  constructor(
    private readonly options: FailedKnocksOptions,
    private readonly now?: () => number,
  ) {}

  isTooMany(address: string): boolean {
    return this.#buckets.get(address)?.has(1) === false;
  }

  note(address: string): void {
    const { perSecond, burst, mostAddresses = 10_000 } = this.options;
    const bucket = this.#buckets.get(address) ?? new TokenBucket(perSecond, burst, this.now);
    bucket.take(1);
    this.#buckets.delete(address);
    this.#buckets.set(address, bucket);
    if (this.#buckets.size <= mostAddresses) return;
    const [oldest] = this.#buckets.keys();
    if (oldest !== undefined) this.#buckets.delete(oldest);
  }
}
