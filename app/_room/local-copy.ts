import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";
import { copyName } from "./copy-name";
import { type KeptRecord, keptName, readKept } from "./kept-writings";

/** A copy of a room in this browser, so that what was written here outlives a closed page. */
export interface LocalCopy {
  /** Something small kept beside the document; undefined when there is none. */
  readNote(name: string): Promise<unknown>;
  writeNote(name: string, value: unknown): Promise<void>;
  /** What was set aside for the person, each record by itself: two pages of one room never overwrite one another's. */
  readKept(): Promise<KeptRecord[]>;
  keep(records: readonly KeptRecord[]): Promise<void>;
  letGo(records: readonly KeptRecord[]): Promise<void>;
  /** Forgets the document; notes and kept records stay. */
  forget(): Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the copy of a room and fills the document from it; from then on it follows the document.
 *
 * Where the browser keeps nothing (private windows, full disk), the copy lasts as long as the page.
 */
export async function openLocalCopy(userId: string, pieceId: string, doc: Y.Doc): Promise<LocalCopy> {
  if (typeof indexedDB === "undefined") return copyInMemory();
  const kept = new IndexeddbPersistence(copyName({ userId, pieceId }), doc);
  try {
    // y-indexeddb never says that it could not open; asking it for something does.
    await kept.get("epoch");
    await kept.whenSynced;
    return copyOnDisk(kept);
  } catch {
    doc.off("update", kept._storeUpdate);
    return copyInMemory();
  }
}

/** Beside the notes, in the store that y-indexeddb has for whatever else there is. */
const noteStore = "custom";
const keptKeys = (): IDBKeyRange => IDBKeyRange.bound("kept ", "kept!");

function copyOnDisk(kept: IndexeddbPersistence): LocalCopy {
  return {
    readNote: (name) => kept.get(name),
    writeNote: async (name, value) => {
      await kept.set(name, value as never);
    },
    readKept: async () => {
      const request = openStore(kept, noteStore, "readonly")?.getAll(keptKeys());
      return request ? readKept(await resultOf(request)) : [];
    },
    keep: (records) =>
      change(kept, noteStore, (store) => {
        for (const record of records) store.put(record, `kept ${keptName(record)}`);
      }),
    letGo: (records) =>
      change(kept, noteStore, (store) => {
        for (const record of records) store.delete(`kept ${keptName(record)}`);
      }),
    // The store is emptied and not the database: a second tab that has it open would hold up its deletion.
    forget: () => change(kept, "updates", (store) => store.clear()),
    close: () => kept.destroy(),
  };
}

function openStore(
  { db }: IndexeddbPersistence,
  name: string,
  mode: IDBTransactionMode,
): IDBObjectStore | null {
  return db === null ? null : db.transaction(name, mode).objectStore(name);
}

function resultOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Resolves when the change is on the disk. */
function change(
  kept: IndexeddbPersistence,
  name: string,
  make: (store: IDBObjectStore) => void,
): Promise<void> {
  const store = openStore(kept, name, "readwrite");
  if (store === null) return Promise.resolve();
  make(store);
  const { transaction } = store;
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}

function copyInMemory(): LocalCopy {
  const notes = new Map<string, unknown>();
  const kept = new Map<string, KeptRecord>();
  return {
    readNote: async (name) => notes.get(name),
    writeNote: async (name, value) => {
      notes.set(name, value);
    },
    readKept: async () => [...kept.values()],
    keep: async (records) => {
      for (const record of records) kept.set(keptName(record), record);
    },
    letGo: async (records) => {
      for (const record of records) kept.delete(keptName(record));
    },
    forget: async () => {},
    close: async () => {},
  };
}
