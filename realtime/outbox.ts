import { packPayloads } from "./pack-payloads";
import type { PeopleNews } from "./people-news";

/** One NOTIFY. */
export interface Note {
  readonly channel: string;
  readonly payload: string;
}

/** What a node has to say to the others and has not said yet: of each room and each person only the last. */
export class Outbox {
  readonly #ends = new Map<string, number>();
  readonly #people = new Map<string, PeopleNews>();

  constructor(private readonly node: string) {}

  get isEmpty(): boolean {
    return this.#ends.size === 0 && this.#people.size === 0;
  }

  /** A room's log now ends at `sequence`. */
  putEnd(pieceId: string, sequence: number): void {
    this.#ends.set(pieceId, Math.max(sequence, this.#ends.get(pieceId) ?? 0));
  }

  /** Somebody's last whereabouts are the only ones that count; a question stands until it is asked. */
  putPeople(news: PeopleNews): void {
    const key = "client" in news ? `${news.piece} ${news.client}` : news.piece;
    const before = this.#people.get(key);
    const isAsked = news.is === "open" && before?.is === "open" && before.asks;
    this.#people.delete(key);
    this.#people.set(key, isAsked ? { ...news, asks: true } : news);
  }

  /** Everything there is to say, many rooms to a payload. The outbox is then empty. */
  empty(): Note[] {
    const ends = packPayloads(this.node, "entries", [...this.#ends]);
    const people = packPayloads(this.node, "news", [...this.#people.values()]);
    this.#ends.clear();
    this.#people.clear();
    return [
      ...ends.map((payload) => ({ channel: "rooms_appended", payload })),
      ...people.map((payload) => ({ channel: "rooms_people", payload })),
    ];
  }
}
