import { z } from "zod";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { wasPlayed } from "@/lib/calendar/was-played";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece } from "../in-piece";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { performanceShape } from "./occasion-schema";
import { type PerformanceRecord, toStoredDate, toStoredKind } from "./performance-record";
import { openEdition, planOf } from "./plan-edition";
import { findPerformance, performanceChanged, rewritePerformance } from "./rewrite-performance";

const changeSchema = z.object({
  ...performanceShape,
  performanceId: z.string().max(100),
  /** Of what was on the screen. */
  revision: z.int().min(0),
  /** Said expressly, once it was played: another edition was played than the one that stands there. */
  editionWasWrong: z.boolean().default(false),
});

/**
 * Writes anew what was logged about a performance; with another edition its planned time is computed again. What stood
 * there before stays in the trail. Nobody writes over what they have not seen. Which edition is planned may be changed until
 * the day is over or a time was written down; from then on only by saying that another one was played.
 */
export async function changePerformance(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(changeSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "log-performance");
  if (!membership.ok) return membership;
  const { performanceId, revision, editionNumber, editionWasWrong, kind, on, ...written } = asked.value;
  const edition = await openEdition(pieceId, editionNumber);
  if (!edition.ok) return edition;
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const found = await findPerformance(work, performanceId);
    if (!found.ok) return found;
    const before = found.value;
    if (before.revision !== revision) return failure(performanceChanged);
    const isOther = before.editionNumber !== editionNumber;
    const data = {
      ...{ ...written, kind: toStoredKind(kind), on: toStoredDate(on) },
      ...(isOther && { editionId: edition.value.id, plannedSeconds: planOf(edition.value).seconds }),
    };
    if (isOther && before.sections !== null) return failure(isTimed(before.editionNumber));
    if (isOther && wasPlayed(before, isoDateOf(now())) && !editionWasWrong)
      return failure(wasPlayedAs(before.editionNumber, editionNumber));
    return success(await rewritePerformance(work, before, data, "performance changed"));
  });
}

function wasPlayedAs(number: number, other: number): StoreProblem {
  const sentence = `This was played, and № ${number} stands here as what was played. Say that it was № ${other}, or leave № ${number}.`;
  return { kind: "conflict", sentence };
}

function isTimed(number: number): StoreProblem {
  const sentence = `A stopwatch was tapped through № ${number} here, so № ${number} was played. Log another performance for the other edition.`;
  return { kind: "conflict", sentence };
}
