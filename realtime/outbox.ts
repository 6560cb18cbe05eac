import { packPayloads } from "./pack-payloads";

/** One NOTIFY. */
export interface Note {
  readonly channel: string;
  readonly payload: string;
}

/** What a node has to say to the others and has not said yet: of each room only the last. */
export class Outbox {
  readonly #ends = new Map<string, number>();

  constructor(private readonly node: string) {}

  get isEmpty(): boolean {
    return this.#ends.size === 0;
  }

  /** A room's log now ends at `sequence`. */
  putEnd(pieceId: string, sequence: number): void {
    this.#ends.set(pieceId, Math.max(sequence, this.#ends.get(pieceId) ?? 0));
  }

  /** Everything there is to say, many rooms to a payload. The outbox is then empty. */
  empty(): Note[] {
    const ends = packPayloads(this.node, "entries", [...this.#ends]);
    this.#ends.clear();
    return ends.map((payload) => ({ channel: "rooms_appended", payload }));
  }
}
