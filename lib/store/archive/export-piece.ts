import { failure, type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { packInThread } from "./pack-in-thread";
import { printNewest } from "./print-newest";
import { readWholePiece } from "./read-whole-piece";

export interface ExportedPiece {
  /** For the name of the file. */
  readonly title: string;
  /** A zip archive: see `writePieceArchive`. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * A whole piece to take along: everything that its players brought, said, decided, froze and played, as one moment has
 * it. For those who read the discussion. No addresses, no passwords and no ids of accounts are in it.
 */
export async function exportPiece(
  viewer: Viewer,
  pieceId: string,
  { withPages = false }: { readonly withPages?: boolean } = {},
): Promise<Result<ExportedPiece, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "take-away");
  if (!membership.ok) return membership;
  const limit = await takeTry("takeAwayByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const row = await database().$transaction((tx) => readWholePiece(tx, pieceId), {
    isolationLevel: "RepeatableRead",
  });
  if (!row) return failure({ kind: "not-found" });
  const pages = withPages ? await printNewest(row) : new Map<string, Uint8Array>();
  return success({ title: row.title, bytes: await packInThread({ row, pages }) });
}
