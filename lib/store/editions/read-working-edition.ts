import { hashEdition, noMarks } from "@/lib/edition/edition-content";
import { type Result, success } from "@/lib/score/result";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import { readWorkingPiece, type WorkingEdition } from "./working-edition";

/** What would be frozen now, with its hash: the number both players have to agree to. */
export async function readWorkingEdition(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<WorkingEdition, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const { players: _, agreedProposals: __, previousHash: ___, ...working } = await readWorkingPiece(pieceId);
  return success(may(membership.value.role, "read-discussion") ? working : withoutDiscussion(working));
}

/** What is written in the room is not for readers before it is frozen. */
function withoutDiscussion(working: WorkingEdition): WorkingEdition {
  const content = { ...working.content, ...noMarks, rewrites: working.content.rewrites };
  const hash = hashEdition(content);
  return { ...working, content, hash, lastApprovals: [], marksHash: "" };
}
