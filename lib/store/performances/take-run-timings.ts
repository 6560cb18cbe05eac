import { z } from "zod";
import { playEdition } from "@/lib/edition/performed-sections";
import { takeTimings } from "@/lib/edition/take-timings";
import { tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { failure, type Result } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { findMainSource } from "../pieces/score-of-source";
import { setTempoSettings } from "../pieces/set-tempo-settings";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { performanceParts, toPerformanceRecord } from "./performance-record";
import { openEdition } from "./plan-edition";

const takeSchema = z.object({
  performanceId: z.string().max(100),
  /** Indices of sections, as they are kept with the performance. */
  sections: z.array(z.int().min(0).max(500)).min(1, "Choose a section.").max(500),
});

/**
 * Takes real times of chosen sections as the duo's own timings: they count from now on, and in the next edition.
 * Whoever had agreed to freeze it is asked again.
 */
export async function takeRunTimings(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(takeSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "set-tempo");
  if (!membership.ok) return membership;
  const row = await database().performance.findFirst({
    where: { id: asked.value.performanceId, pieceId },
    include: performanceParts,
  });
  if (!row) return failure({ kind: "not-found" });
  const { editionNumber, sections } = toPerformanceRecord(row);
  const edition = await openEdition(pieceId, editionNumber);
  if (!edition.ok) return edition;
  const source = await findMainSource(pieceId);
  if (source.hash !== edition.value.content.sourceHash) return failure(otherFile(editionNumber));
  const real = new Map<number, number>();
  for (const index of asked.value.sections) {
    const seconds = sections?.sections[index]?.realSeconds ?? null;
    if (seconds === null) return failure(notTapped);
    real.set(index, seconds);
  }
  const piece = await database().piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } });
  const played = playEdition(edition.value.score, edition.value.content);
  const settings = takeTimings(played, real, tempoTermsSchema.parse(piece.tempo));
  return setTempoSettings(viewer, pieceId, { settings });
}

function otherFile(number: number): StoreProblem {
  return { kind: "conflict", sentence: `№ ${number} is of another file, whose bars are others.` };
}

const notTapped: StoreProblem = { kind: "invalid-input", sentence: "That section was not timed." };
