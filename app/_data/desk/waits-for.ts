import { isPlayer, type MemberRole } from "@/lib/store/who-may";

interface Somebody {
  readonly userId: string;
  readonly role: MemberRole;
}

/**
 * Whether a proposal waits for this person's answer: an open one that the other player put forward.
 *
 * @param people of the piece. What somebody in one's own place put forward is one's own.
 */
export function waitsFor(
  me: Somebody,
  people: readonly Somebody[],
  { state, proposedBy }: { readonly state: string; readonly proposedBy: string },
): boolean {
  if (state !== "open" || !isPlayer(me.role)) return false;
  const proposer = people.find(({ userId }) => userId === proposedBy);
  return proposedBy !== me.userId && proposer?.role !== me.role;
}
