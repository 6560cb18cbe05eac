import { type Result, success } from "@/lib/score/result";
import type { ReadScore } from "@/lib/score/score";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findMainSource, readSourceScore } from "./score-of-source";

export interface PieceScore extends ReadScore {
  /** SHA-256 (hex) of the bytes it was read from: proposals name it. */
  readonly sourceHash: string;
}

/** A piece's music, its parts in the roles the players gave them. */
export async function readPieceScore(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<PieceScore, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const source = await findMainSource(pieceId);
  const read = await readSourceScore(source, source.partRoles);
  return success({ ...read, sourceHash: source.hash });
}
