import { now } from "../clock";
import { database } from "../database";
import { titleWithOccasion } from "../pieces/occasion-name";
import type { Viewer } from "../viewer";
import { daysLeft, lastReturn } from "./deletion-days";

/** A deleted piece that can still be brought back. */
export interface DeletedPiece {
  readonly id: string;
  readonly title: string;
  readonly composer: string | null;
  readonly deletedAt: Date;
  /** Who deleted it; null when that account is gone. */
  readonly deletedBy: string | null;
  readonly daysLeft: number;
}

/** The deleted pieces that the viewer may bring back: those they play in. The one deleted last first. */
export async function listDeletedPieces(viewer: Viewer): Promise<DeletedPiece[]> {
  const rows = await database().piece.findMany({
    where: {
      deletedAt: { gte: lastReturn(now()) },
      members: {
        some: { userId: viewer.userId, removedAt: null, role: { in: ["pianist", "soloist"] } },
      },
    },
    orderBy: { deletedAt: "desc" },
    select: {
      ...{ id: true, title: true, branchName: true, composer: true, deletedAt: true },
      deletedBy: { select: { name: true } },
    },
  });
  return rows.flatMap(({ id, title, branchName, composer, deletedAt, deletedBy }) =>
    deletedAt === null
      ? []
      : [
          {
            ...{ id, composer, deletedAt, title: titleWithOccasion(title, branchName) },
            ...{ deletedBy: deletedBy?.name ?? null, daysLeft: daysLeft(deletedAt, now()) },
          },
        ],
  );
}
