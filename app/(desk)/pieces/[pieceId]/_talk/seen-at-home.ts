import { z } from "zod";
import { recordIdSchema } from "@/lib/room/record-id";

const idsSchema = z.array(recordIdSchema).max(5000);

/** Comments that were seen here and that the server does not know of yet: they outlive the page. */
export interface SeenAtHome {
  read(): string[];
  add(id: string): void;
  /** The server knows these now. */
  forget(ids: readonly string[]): void;
}

/** Kept under the person's and the piece's name; where the browser keeps nothing, as long as the page. */
export function seenAtHome(storage: Storage | null, userId: string, pieceId: string): SeenAtHome {
  const key = `colla-seen-${userId}-${pieceId}`;
  let inMemory: string[] = [];
  // Read each time: another tab writes here too.
  const read = (): string[] => {
    try {
      const parsed = idsSchema.safeParse(JSON.parse(storage?.getItem(key) ?? "null"));
      return parsed.success ? parsed.data : inMemory;
    } catch {
      return inMemory;
    }
  };
  const write = (ids: readonly string[]) => {
    inMemory = [...ids];
    try {
      if (ids.length === 0) storage?.removeItem(key);
      else storage?.setItem(key, JSON.stringify(ids));
    } catch {
      // A full disk is no reason to lose the page.
    }
  };
  return {
    read,
    add: (id) => write([...new Set([...read(), id])]),
    forget: (ids) => write(read().filter((id) => !ids.includes(id))),
  };
}
