import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";

/** A copy of a room in this browser, so that what was written here outlives a closed page. */
export interface LocalCopy {
  /** Something small kept beside the document; undefined when there is none. */
  readNote(name: string): Promise<unknown>;
  writeNote(name: string, value: unknown): Promise<void>;
  /** Forgets the document; notes stay. */
  forget(): Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the copy of a room and fills the document from it; from then on it follows the document. Copies belong
 * to one person: whoever signs in next in the same browser finds nothing of it.
 *
 * Where the browser keeps nothing (private windows, full disk), the copy lasts as long as the page.
 */
export async function openLocalCopy(userId: string, pieceId: string, doc: Y.Doc): Promise<LocalCopy> {
  if (typeof indexedDB === "undefined") return copyInMemory();
  const kept = new IndexeddbPersistence(`colla-room-${userId}-${pieceId}`, doc);
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

function copyOnDisk(kept: IndexeddbPersistence): LocalCopy {
  return {
    readNote: (name) => kept.get(name),
    writeNote: async (name, value) => {
      await kept.set(name, value as never);
    },
    forget: () => clearUpdates(kept),
    close: () => kept.destroy(),
  };
}

/** Empties the store and not the database: a second tab that has it open would hold up its deletion. */
async function clearUpdates(kept: IndexeddbPersistence): Promise<void> {
  const { db } = kept;
  if (db === null) return;
  const transaction = db.transaction("updates", "readwrite");
  transaction.objectStore("updates").clear();
  await new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}

function copyInMemory(): LocalCopy {
  const notes = new Map<string, unknown>();
  return {
    readNote: async (name) => notes.get(name),
    writeNote: async (name, value) => {
      notes.set(name, value);
    },
    forget: async () => {},
    close: async () => {},
  };
}
