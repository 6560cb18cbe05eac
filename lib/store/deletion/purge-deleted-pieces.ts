import { now } from "../clock";
import { database } from "../database";
import { lastReturn } from "./deletion-days";

/** The advisory lock of the purge; any number, but only this place uses it. */
const lockNumber = 20_261_127;
const longestMilliseconds = 5 * 60_000;

/**
 * Deletes for good what was deleted more than 30 days ago, one piece a transaction, unless another process is at it. The
 * database itself checks the age again (`purge_deleted_piece`).
 *
 * @returns how many pieces went.
 */
export async function purgeDeletedPieces(): Promise<number> {
  const due = await database().piece.findMany({
    where: { deletedAt: { lt: lastReturn(now()) } },
    orderBy: { deletedAt: "asc" },
    select: { id: true },
  });
  let purged = 0;
  for (const { id } of due) {
    const isPurged = await database().$transaction(
      async (tx) => {
        const [lock] = await tx.$queryRaw<{ held: boolean }[]>`
          SELECT pg_try_advisory_xact_lock(${lockNumber}) AS held`;
        if (!lock?.held) return false;
        const [row] = await tx.$queryRaw<{ purged: boolean }[]>`SELECT purge_deleted_piece(${id}) AS purged`;
        return row?.purged === true;
      },
      { timeout: longestMilliseconds },
    );
    if (isPurged) purged += 1;
  }
  return purged;
}
