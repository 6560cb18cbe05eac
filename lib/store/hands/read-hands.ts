import { type HandsProfile, handsProfileSchema, usualHands } from "@/lib/hands/hands-profile";
import { database } from "../database";
import type { Viewer } from "../viewer";

/** What lies under somebody's hands, by their own word. */
export interface Hands {
  readonly profile: HandsProfile;
  /** Null while they have not said anything: then the usual hands hold. */
  readonly givenAt: Date | null;
}

/** The viewer's own hands. Nobody is ever told another's. */
export async function readHands({ userId }: Viewer): Promise<Hands> {
  const row = await database().user.findUnique({
    where: { id: userId },
    select: { hands: true, handsChangedAt: true },
  });
  if (!row || row.hands === null) return { profile: usualHands, givenAt: null };
  return { profile: handsProfileSchema.parse(row.hands), givenAt: row.handsChangedAt };
}
