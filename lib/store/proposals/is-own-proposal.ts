import type { MemberRole } from "../who-may";

interface Somebody {
  readonly userId: string;
  readonly role: MemberRole;
}

/**
 * Whether a proposal counts as a member's own: they put it forward, or somebody did who had their place before them. The
 * other player answers it, because agreement is between the two places and nobody agrees with themselves.
 *
 * @param people everybody who ever belonged to the piece: who left keeps the role they left with.
 * @param proposedBy id of who put it forward; of somebody who is not among the people it is nobody's own.
 */
export function isOwnProposal(me: Somebody, people: readonly Somebody[], proposedBy: string): boolean {
  const proposer = people.find(({ userId }) => userId === proposedBy);
  return proposedBy === me.userId || proposer?.role === me.role;
}
