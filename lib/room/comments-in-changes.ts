import type { RecordChange } from "./find-changed-records";

/** What an update does to comments, by their ids, as far as it decides whether they are there to be read. */
export interface CommentsTouched {
  /** Written in it, or brought back by it. */
  readonly written: readonly string[];
  /** Deleted by it. */
  readonly deleted: readonly string[];
}

/** The comments that changes of a room put there to be read, or take away. One that is only reworded is neither. */
export function findCommentsTouched(changes: readonly RecordChange[]): CommentsTouched {
  const [written, deleted]: [string[], string[]] = [[], []];
  for (const { map, key, before, after, isOvertaken } of changes) {
    if (map !== "comments" || isOvertaken) continue;
    const [wasThere, isThere] = [isReadable(before), isReadable(after)];
    if (isThere && !wasThere) written.push(key);
    if (wasThere && !isThere) deleted.push(key);
  }
  return { written, deleted };
}

function isReadable(record: unknown): boolean {
  return record !== undefined && (record as { deletedAt?: unknown }).deletedAt === null;
}
