import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import type { Viewer } from "@/lib/store/viewer";
import { isPlayer } from "@/lib/store/who-may";

/** How many proposals of a piece wait for this viewer's answer: those the other player put forward. */
export async function countWaiting(viewer: Viewer, piece: PieceRecord): Promise<number> {
  if (!isPlayer(piece.myRole)) return 0;
  const proposals = await listProposals(viewer, piece.id);
  if (!proposals.ok) return 0;
  const isMySide = (userId: string) =>
    userId === viewer.userId ||
    piece.members.some((member) => member.userId === userId && member.role === piece.myRole);
  return proposals.value.filter(({ state, proposedBy }) => state === "open" && !isMySide(proposedBy)).length;
}
