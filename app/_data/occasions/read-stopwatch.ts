import { playEdition } from "@/lib/edition/performed-sections";
import { type Result, success } from "@/lib/score/result";
import { listEditions } from "@/lib/store/editions/list-editions";
import { listPerformances } from "@/lib/store/performances/list-performances";
import { openEdition } from "@/lib/store/performances/plan-edition";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import { readPieceOnce } from "../read-desk";
import type { StopwatchEdition, StopwatchView } from "./stopwatch-view";

/** So many editions can be played through; nobody times an older one. */
const mostEditions = 8;

/** All that the stopwatch of a piece needs, so that it works on without a connection. */
export async function readStopwatch(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<StopwatchView, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const { title, limitSeconds, myRole } = piece.value;
  const mayLog = may(myRole, "log-performance");
  const view = { pieceId, title, limitSeconds, mayLog, userId: viewer.userId };
  if (!mayLog) return success({ ...view, editions: [], performances: [] });
  const [frozen, performances] = await Promise.all([
    listEditions(viewer, pieceId),
    listPerformances(viewer, pieceId),
  ]);
  if (!frozen.ok) return frozen;
  if (!performances.ok) return performances;
  const editions = await Promise.all(
    frozen.value.slice(0, mostEditions).map(({ number }) => readSections(pieceId, number)),
  );
  return success({
    ...view,
    editions: editions.filter((edition) => edition !== null),
    performances: performances.value.map(({ id, name, on, editionNumber, limitSeconds }) => ({
      id,
      name,
      on,
      editionNumber,
      limitSeconds,
    })),
  });
}

async function readSections(pieceId: string, number: number): Promise<StopwatchEdition | null> {
  const edition = await openEdition(pieceId, number);
  if (!edition.ok) return null;
  const { sections } = playEdition(edition.value.score, edition.value.content);
  if (sections.length === 0) return null;
  return {
    number,
    sections: sections.map(({ name, isLetter, plannedSeconds }) => ({ name, isLetter, plannedSeconds })),
  };
}
