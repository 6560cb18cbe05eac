import { findLastPlayed } from "@/app/(desk)/_performances/last-played";
import { type DeletedPiece, listDeletedPieces } from "@/lib/store/deletion/list-deleted-pieces";
import { listMyPerformances, type MyPerformance } from "@/lib/store/performances/list-performances";
import { listPieces, type PieceSummary } from "@/lib/store/pieces/list-pieces";
import { listWaiting, type Waiting } from "@/lib/store/proposals/list-waiting";
import type { Viewer } from "@/lib/store/viewer";
import type { Desk } from "./desk/desk";
import { readDesk } from "./read-desk";

/** A piece in the list of one's own. */
export interface HomePiece {
  readonly summary: PieceSummary;
  /** Null when its source can no longer be read; the rest of the list stays. */
  readonly desk: Desk | null;
  /** The last time it was played; null before the first, and for those who do not read performances. */
  readonly lastPlayed: MyPerformance | null;
}

/** Everything the first screen shows one person. */
export interface Home {
  readonly pieces: readonly HomePiece[];
  readonly waiting: readonly Waiting[];
  /** From today on, the next one first. */
  readonly upcoming: readonly MyPerformance[];
  /** What the person may bring back. */
  readonly deleted: readonly DeletedPiece[];
}

export async function readHome(viewer: Viewer, today: string): Promise<Home> {
  const [summaries, waiting, performances, deleted] = await Promise.all([
    listPieces(viewer),
    listWaiting(viewer),
    listMyPerformances(viewer),
    listDeletedPieces(viewer),
  ]);
  const pieces = await Promise.all(
    summaries.map(async (summary) => {
      const desk = await readDesk(viewer, summary.id);
      const own = performances.filter(({ pieceId }) => pieceId === summary.id);
      return { summary, desk: desk.ok ? desk.value : null, lastPlayed: findLastPlayed(own, today) };
    }),
  );
  const upcoming = performances
    .filter(({ on, realSeconds }) => on >= today && realSeconds === null)
    .reverse();
  return { pieces, waiting, upcoming, deleted };
}
