import { z } from "zod";
import { readEditionContent } from "@/lib/edition/edition-content";
import { timeEdition } from "@/lib/edition/time-edition";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import { titleSchema } from "../pieces/create-piece";
import { readSourceScore } from "../pieces/score-of-source";
import { limitSchema } from "../pieces/set-limit";
import { reasonSchema } from "../proposals/reason-schema";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import {
  type PerformanceRecord,
  performanceParts,
  toPerformanceRecord,
  toStoredKind,
} from "./performance-record";

/** By the clock, to the second or finer. */
export const realSecondsSchema = z
  .number()
  .positive("A performance took some time.")
  .max(10 * 60 * 60, "A performance lasts at most ten hours.")
  .nullable();

const logSchema = z.object({
  kind: z.enum(["jury", "examination", "competition", "recital", "run-through"]),
  name: titleSchema.pipe(z.string().min(1, "Write what the occasion was.")),
  on: z.iso.date("A date is written as year, month and day."),
  place: titleSchema.default(""),
  limitSeconds: limitSchema.default(null),
  editionNumber: z.int().min(1),
  realSeconds: realSecondsSchema.default(null),
  remarks: reasonSchema.default(""),
});

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
  const edition = await planEdition(pieceId, editionNumber);
  if (!edition) return failure(noSuchEdition(editionNumber));
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const row = await work.tx.performance.create({
      data: {
        ...written,
        pieceId,
        editionId: edition.id,
        kind: toStoredKind(kind),
        on: new Date(`${on}T00:00:00Z`),
        plannedSeconds: edition.seconds,
        loggedById: viewer.userId,
        createdAt: now(),
      },
      include: performanceParts,
    });
    const about = { performanceId: row.id, editionNumber };
    await noteChange(work, { what: "performance logged", about, change: "performances" });
    return success(toPerformanceRecord(row));
  });
}

function noSuchEdition(number: number): StoreProblem {
  return { kind: "invalid-input", sentence: `There is no edition № ${number} of this piece.` };
}

/** The edition and how long it runs by the tempi that were frozen with it; null when there is none. */
async function planEdition(pieceId: string, number: number): Promise<{ id: string; seconds: number } | null> {
  const edition = await database().edition.findUnique({ where: { pieceId_number: { pieceId, number } } });
  if (!edition) return null;
  const content = readEditionContent(edition.content);
  const source = await database().source.findFirstOrThrow({ where: { pieceId, hash: content.sourceHash } });
  const { score } = await readSourceScore(source, content.partRoles);
  return { id: edition.id, seconds: timeEdition(score, content).seconds };
}
