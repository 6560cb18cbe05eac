import { z } from "zod";
import type { MemberRole } from "../who-may";
import { may } from "../who-may";
import type { TrailNews } from "./news";

/** An entry of a piece's audit trail. */
export interface TrailEntry {
  readonly at: Date;
  readonly userId: string | null;
  readonly what: string;
  readonly about: unknown;
}

/**
 * Links made and taken back concern nobody but who made them, changes of mind about freezing come and go, a soloist notes
 * many rests in one sitting, and a hint on how to sound like a horn can wait: they stand on the desk.
 */
const notTold: ReadonlySet<string> = new Set([
  "piece brought",
  "piece deleted",
  "piece brought back",
  // Who belongs to the branch is told in the branch.
  "branch made",
  "invitation made",
  "invitation revoked",
  "reader link made",
  "reader link revoked",
  "approval withdrawn",
  "rest need noted",
  "rest need changed",
  "rest need released",
  "rest need held again",
  "rest need removed",
  "rest need brought back",
  "breath set",
  "hint written",
]);

const numberedSchema = z.object({ number: z.int().optional(), editionNumber: z.int().optional() });

/** What of the trail is news for this person. Who does not read the discussion is told of editions only. */
export function findTrailNews(
  entries: readonly TrailEntry[],
  me: { readonly userId: string; readonly role: MemberRole },
): TrailNews[] {
  const isTold = ({ what }: TrailEntry) =>
    may(me.role, "read-discussion") ? !notTold.has(what) : what === "edition frozen";
  return entries.filter(isTold).flatMap(({ at, userId, what, about }) => {
    if (userId === null || userId === me.userId) return [];
    return [{ kind: "trail", at, byId: userId, what, number: numberIn(about) }];
  });
}

function numberIn(about: unknown): number | null {
  const read = numberedSchema.safeParse(about);
  return read.success ? (read.data.number ?? read.data.editionNumber ?? null) : null;
}
