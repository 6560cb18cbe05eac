import { chooseKept, findUnused, keepLimits } from "./choose-kept";
import { type KeptList, type KeptPiece, keptListSchema } from "./kept-piece";

/** The number changes when what lies in the store changes its form. */
export const storeName = "colla-kept-1";
const listAddress = "/.kept/list";
/** When an answer was put by, ISO 8601. */
export const keptAtHeader = "x-kept-at";

/** Vary would hold an answer against the request's cookies and Next's own headers; there is one person here. */
const anyHeaders = { ignoreVary: true };

/** What is kept in this browser for the time without a connection. */
export class KeptStore {
  private constructor(private readonly cache: Cache) {}

  static async open(): Promise<KeptStore> {
    return new KeptStore(await caches.open(storeName));
  }

  /** The kept answer for an address; null when there is none. */
  async find(address: string): Promise<Response | null> {
    return (await this.cache.match(address, anyHeaders)) ?? null;
  }

  async put(address: string, answer: Response): Promise<void> {
    await this.cache.put(address, answer);
  }

  /** @returns null when nothing is kept, or nothing that this program can read. */
  async readList(): Promise<KeptList | null> {
    const note: unknown = await (await this.find(listAddress))?.json().catch(() => null);
    const parsed = keptListSchema.safeParse(note);
    return parsed.success ? parsed.data : null;
  }

  /** Notes what is kept, and lets everything else go. */
  async writeList(userId: string, pieces: readonly KeptPiece[]): Promise<void> {
    const kept = chooseKept(pieces, keepLimits);
    const list: KeptList = { userId, pieces: kept };
    await this.cache.put(listAddress, Response.json(list));
    const stored = (await this.cache.keys()).map(({ url }) => {
      const { pathname, search } = new URL(url);
      return pathname + search;
    });
    const unused = findUnused(stored, kept).filter((address) => address !== listAddress);
    await Promise.all(unused.map((address) => this.cache.delete(address, anyHeaders)));
  }

  static async forgetAll(): Promise<void> {
    await caches.delete(storeName);
  }
}
