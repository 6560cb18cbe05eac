import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { performanceShape } from "./occasion-schema";
import {
  type PerformanceRecord,
  performanceParts,
  toPerformanceRecord,
  toStoredDate,
  toStoredKind,
} from "./performance-record";
import { openEdition, planOf } from "./plan-edition";

const logSchema = z.object(performanceShape);

/**
 * Writes down an occasion, played or to come, and the edition that belongs to it. What the edition was planned
 * to run is computed here and kept beside the real time.
 */
export async function logPerformance(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(logSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "log-performance");
  if (!membership.ok) return membership;
  const { editionNumber, kind, on, ...written } = asked.value;
  const edition = await openEdition(pieceId, editionNumber);
  if (!edition.ok) return edition;
  const plannedSeconds = planOf(edition.value).seconds;
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const row = await work.tx.performance.create({
      data: {
        ...{ ...written, pieceId, plannedSeconds, editionId: edition.value.id },
        ...{ kind: toStoredKind(kind), on: toStoredDate(on), loggedById: viewer.userId },
        ...{ createdAt: now(), changedAt: now() },
      },
      include: performanceParts,
    });
    const about = { performanceId: row.id, editionNumber };
    await noteChange(work, { what: "performance logged", about, change: "performances" });
    return success(toPerformanceRecord(row));
  });
}
