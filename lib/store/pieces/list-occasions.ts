import { type Result, success } from "@/lib/score/result";
import { type Database, database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** One of the occasions that the same music is prepared for. Each is a piece of its own. */
export interface Occasion {
  readonly pieceId: string;
  /** "Jury"; null while nobody has named it. */
  readonly name: string | null;
  /** Number of its last edition; null when none was frozen. */
  readonly lastEdition: number | null;
}

/**
 * The occasions of one music that the viewer belongs to, the first piece first, this one among them. Of one that the
 * viewer does not belong to nothing is told, not even that there is one.
 */
export async function listOccasions(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<Occasion[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  return success(await findOccasions(viewer, pieceId, database()));
}

/** For the store: whoever asks has been checked. */
export async function findOccasions(viewer: Viewer, pieceId: string, db: Database): Promise<Occasion[]> {
  const rootId = await findRoot(pieceId, db);
  const rows = await db.piece.findMany({
    where: {
      OR: [{ id: rootId }, { branchOfId: rootId }],
      deletedAt: null,
      members: { some: { userId: viewer.userId, removedAt: null } },
    },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    select: {
      id: true,
      branchName: true,
      editions: { orderBy: { number: "desc" }, take: 1, select: { number: true } },
    },
  });
  return rows
    .map(({ id, branchName, editions }) => ({
      ...{ pieceId: id, name: branchName },
      lastEdition: editions[0]?.number ?? null,
    }))
    .sort((a, b) => Number(b.pieceId === rootId) - Number(a.pieceId === rootId));
}

/** The first piece of the music: the one that all the others are branches of. */
export async function findRoot(pieceId: string, db: Database): Promise<string> {
  const piece = await db.piece.findUniqueOrThrow({
    where: { id: pieceId },
    select: { branchOfId: true },
  });
  return piece.branchOfId ?? pieceId;
}
