import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import { type CueHintRecord, cueHintParts, toCueHintRecord } from "./cue-hint-record";

/**
 * Every text that the duo wrote on how to sound like an instrument, the newest first: the first of an instrument stands.
 * Whoever has no part in the discussion gets none.
 */
export async function listCueHints(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<CueHintRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  if (!may(membership.value.role, "read-discussion")) return success([]);
  const rows = await database().cueHint.findMany({
    where: { pieceId },
    orderBy: [{ at: "desc" }, { id: "desc" }],
    include: cueHintParts,
  });
  return success(rows.map(toCueHintRecord));
}
