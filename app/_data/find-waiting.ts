import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { Viewer } from "@/lib/store/viewer";
import { isPlayer } from "@/lib/store/who-may";
import { waitsFor } from "./desk/waits-for";

export interface WaitingHere {
  /** How many proposals wait for the viewer's answer: cuts and rewrites that the other player put forward. */
  readonly count: number;
  /** Where in the piece the first of them is answered, as the end of an address. */
  readonly place: string;
}

/** What waits in a piece for this viewer. */
export async function findWaiting(viewer: Viewer, piece: PieceRecord): Promise<WaitingHere> {
  const nothing = { count: 0, place: "?waits" };
  if (!isPlayer(piece.myRole)) return nothing;
  const [cuts, rewrites] = await Promise.all([
    listProposals(viewer, piece.id),
    listRewrites(viewer, piece.id),
  ]);
  if (!cuts.ok || !rewrites.ok) return nothing;
  const me = { ...viewer, role: piece.myRole };
  const people = [...piece.members, ...piece.formerMembers];
  const askedCuts = cuts.value.filter((proposal) => waitsFor(me, people, proposal));
  const askedRewrites = rewrites.value.filter(
    ({ proposal }) => proposal !== null && waitsFor(me, people, proposal),
  );
  const [rewrite] = askedRewrites;
  return {
    count: askedCuts.length + askedRewrites.length,
    place: askedCuts.length === 0 && rewrite ? `/hands?rewrite=${rewrite.id}` : "?waits",
  };
}
