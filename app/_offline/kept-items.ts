import type { z } from "zod";

/** Where things are kept: the browser's own storage, which a reload, a crash and a locked screen leave alone. */
export type ItemStorage = Pick<Storage, "getItem" | "setItem" | "removeItem" | "key" | "length">;

/** What is kept, and what its entries are called. */
export interface ItemKind<T> {
  /** Lower case; entries are named by it, so it stays. */
  readonly name: string;
  readonly schema: z.ZodType<T>;
  readonly idOf: (item: T) => string;
  /** As `Array.sort` takes it. */
  readonly compare: (a: T, b: T) => number;
}

/**
 * What one person did on this device and the server does not have yet. One entry each, so that two pages never write over
 * each other's. An entry that is none of ours (any more) is passed over and left alone.
 */
export class KeptItems<T> {
  constructor(
    private readonly kind: ItemKind<T>,
    private readonly userId: string,
    private readonly storage: ItemStorage,
  ) {}

  /** In the order of the kind. */
  list(): T[] {
    const keys = Array.from({ length: this.storage.length }, (_, index) => this.storage.key(index));
    return keys
      .flatMap((key) => (key?.startsWith(this.keyOf("")) ? (this.read(key) ?? []) : []))
      .sort(this.kind.compare);
  }

  /** @returns false when the browser keeps nothing, because it is full or told not to. */
  keep(item: T): boolean {
    try {
      this.storage.setItem(this.keyOf(this.kind.idOf(item)), JSON.stringify(item));
      return true;
    } catch {
      return false;
    } finally {
      this.tellChanged();
    }
  }

  letGo(id: string): void {
    this.storage.removeItem(this.keyOf(id));
    this.tellChanged();
  }

  /** Calls `listener` whenever something is kept or let go, in this page or another. @returns stops it. */
  onChanged(listener: () => void): () => void {
    const name = this.eventName();
    window.addEventListener(name, listener);
    window.addEventListener("storage", listener);
    return () => {
      window.removeEventListener(name, listener);
      window.removeEventListener("storage", listener);
    };
  }

  private keyOf(id: string): string {
    return `colla-${this.kind.name}-${this.userId}-${id}`;
  }

  private read(key: string): T | null {
    try {
      return this.kind.schema.safeParse(JSON.parse(this.storage.getItem(key) ?? "null")).data ?? null;
    } catch {
      return null; // Not JSON, so not ours.
    }
  }

  private eventName(): string {
    return `colla-${this.kind.name}-changed`;
  }

  private tellChanged(): void {
    if (typeof window !== "undefined") window.dispatchEvent(new Event(this.eventName()));
  }
}

/** For browsers without a storage: nothing is kept by it. */
const nowhere: ItemStorage = {
  length: 0,
  key: () => null,
  getItem: () => null,
  setItem: refuse,
  removeItem: () => {},
};

function refuse(): never {
  throw new Error("this browser keeps nothing");
}

/** The browser's storage; one that keeps nothing where it has none for us. */
export function browserStorage(): ItemStorage {
  try {
    return window.localStorage;
  } catch {
    return nowhere;
  }
}
