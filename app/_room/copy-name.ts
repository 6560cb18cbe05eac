const prefix = "colla-room-";

/** Whose copy of which room. */
export interface CopyPlace {
  readonly userId: string;
  readonly pieceId: string;
}

/** The name of a copy. Copies belong to one person: whoever signs in next in the same browser finds nothing of it. */
export function copyName({ userId, pieceId }: CopyPlace): string {
  return `${prefix}${userId}-${pieceId}`;
}

const uuid = "[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}";
const namePattern = new RegExp(`^${prefix}(${uuid})-(${uuid})$`);

/** Whose copy of which room a database is; null when it is none. */
export function readCopyName(name: string): CopyPlace | null {
  const [, userId, pieceId] = namePattern.exec(name) ?? [];
  return userId && pieceId ? { userId, pieceId } : null;
}

/** The copies of rooms in this browser; none where it cannot tell. */
export async function listCopies(): Promise<CopyPlace[]> {
  if (typeof indexedDB === "undefined" || !indexedDB.databases) return [];
  const databases = await indexedDB.databases().catch(() => []);
  return databases.flatMap(({ name }) => readCopyName(name ?? "") ?? []);
}
