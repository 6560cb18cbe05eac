import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { Viewer } from "@/lib/store/viewer";
import { isPlayer } from "@/lib/store/who-may";

/** How many proposals of a piece wait for this viewer's answer: cuts and rewrites that the other player put forward. */
export async function countWaiting(viewer: Viewer, piece: PieceRecord): Promise<number> {
  if (!isPlayer(piece.myRole)) return 0;
  const [cuts, rewrites] = await Promise.all([
    listProposals(viewer, piece.id),
    listRewrites(viewer, piece.id),
  ]);
  if (!cuts.ok || !rewrites.ok) return 0;
  const isMySide = (userId: string) =>
    userId === viewer.userId ||
    piece.members.some((member) => member.userId === userId && member.role === piece.myRole);
  const asked = [...cuts.value, ...rewrites.value.flatMap(({ proposal }) => proposal ?? [])];
  return asked.filter(({ state, proposedBy }) => state === "open" && !isMySide(proposedBy)).length;
}
