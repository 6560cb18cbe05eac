import { isOwnProposal } from "@/lib/store/proposals/is-own-proposal";
import { isPlayer, type MemberRole } from "@/lib/store/who-may";

interface Somebody {
  readonly userId: string;
  readonly role: MemberRole;
}

/**
 * Whether a proposal waits for this person's answer: an open one that the other player put forward.
 *
 * @param people everybody who ever belonged to the piece: what somebody put forward who had one's place before is one's own.
 */
export function waitsFor(
  me: Somebody,
  people: readonly Somebody[],
  { state, proposedBy }: { readonly state: string; readonly proposedBy: string },
): boolean {
  return state === "open" && isPlayer(me.role) && !isOwnProposal(me, people, proposedBy);
}
