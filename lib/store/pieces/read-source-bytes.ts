import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export interface SourceFile {
  readonly fileName: string;
  readonly hash: string;
  /** Exactly what was uploaded. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * A source of a piece, byte for byte.
 *
 * @param which the source the piece is prepared from, its full score, or any source of the piece by hash.
 */
export async function readSourceBytes(
  viewer: Viewer,
  pieceId: string,
  which: "reduction" | "full-score" | { readonly hash: string } = "reduction",
): Promise<Result<SourceFile, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const wanted =
    typeof which === "object"
      ? { hash: which.hash }
      : { kind: which === "reduction" ? ("reduction" as const) : ("full_score" as const) };
  const source = await database().source.findFirst({
    where: { pieceId, ...wanted },
    orderBy: { createdAt: "desc" },
    include: { bytes: true },
  });
  if (!source?.bytes) return failure({ kind: "not-found" });
  return success({ fileName: source.fileName, hash: source.hash, bytes: source.bytes.bytes });
}
