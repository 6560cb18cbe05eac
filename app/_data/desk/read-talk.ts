import { listSeenComments } from "@/lib/store/room/list-seen-comments";
import { readSinceLastVisit, type SinceLastVisit } from "@/lib/store/room/read-since-last-visit";
import type { Viewer } from "@/lib/store/viewer";

/** What one person's screen knows of the talk before the room is open. */
export interface DeskTalk {
  /** Comments that were on this person's screen. */
  readonly seenIds: readonly string[];
  /** Null on a first visit, and for those who do not read the discussion. */
  readonly since: SinceLastVisit | null;
}

/** Nothing of it is worth refusing the piece for: who may not read the discussion gets none. */
export async function readTalk(viewer: Viewer, pieceId: string): Promise<DeskTalk> {
  const [seen, since] = await Promise.all([
    listSeenComments(viewer, pieceId),
    readSinceLastVisit(viewer, pieceId),
  ]);
  return { seenIds: seen.ok ? seen.value : [], since: since.ok ? since.value : null };
}
