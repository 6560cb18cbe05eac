import { z } from "zod";
import { playEdition } from "@/lib/edition/performed-sections";
import { layLaps, type SectionTimings, sumSections } from "@/lib/edition/section-timings";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { titleSchema } from "../pieces/create-piece";
import { limitSchema } from "../pieces/set-limit";
import { reasonSchema } from "../proposals/reason-schema";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { startsAtSchema } from "./occasion-schema";
import {
  type PerformanceRecord,
  performanceParts,
  toPerformanceRecord,
  toStoredDate,
} from "./performance-record";
import { type EditionInScore, openEdition, planOf } from "./plan-edition";
import { findPerformance, rewritePerformance } from "./rewrite-performance";

/** Milliseconds of the longest lap: ten hours. */
const longestLap = 36_000_000;

export const runSchema = z.object({
  runId: z.uuid(),
  editionNumber: z.int().min(1),
  /** The performance it was of; null for a run-through that was not logged before. */
  performanceId: z.string().max(100).nullable(),
  startedAt: z.iso.datetime(),
  byDeviceClock: z.boolean(),
  firstSection: z.int().min(0).max(500),
  /** One a section, from the first on, in whole milliseconds. */
  lapsMilliseconds: z.array(z.int().min(1).max(longestLap)).min(1).max(500),
  /** Local date and time of the start, for a run-through that is logged by this. */
  on: z.iso.date(),
  startsAt: startsAtSchema,
  name: titleSchema.pipe(z.string().min(1, "Write what it was.")),
  place: titleSchema.default(""),
  limitSeconds: limitSchema.default(null),
  remarks: reasonSchema.default(""),
});

type Run = z.infer<typeof runSchema>;

/**
 * Keeps what a stopwatch was tapped through, with a performance that was logged before or as a run-through of its own.
 * The planned times are computed here. The same run sent again changes nothing; an earlier run of the same performance
 * stays in the trail.
 */
export async function recordRun(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const asked = parseInput(runSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "log-performance");
  if (!membership.ok) return membership;
  const run = asked.value;
  const edition = await openEdition(pieceId, run.editionNumber);
  if (!edition.ok) return edition;
  const { sections } = playEdition(edition.value.score, edition.value.content);
  if (run.firstSection + run.lapsMilliseconds.length > sections.length) return failure(tooManyLaps(run));
  const timings: SectionTimings = {
    ...{ runId: run.runId, startedAt: run.startedAt, byDeviceClock: run.byDeviceClock },
    sections: layLaps(
      sections,
      run.firstSection,
      run.lapsMilliseconds.map((lap) => lap / 1000),
    ),
  };
  return inPiece(viewer, pieceId, "log-performance", async (work) => {
    const kept = await findKept(work, run.runId);
    if (kept) return success(kept);
    return run.performanceId === null
      ? success(await logRun(work, run, edition.value, timings))
      : addToPerformance(work, run, run.performanceId, timings);
  });
}

function tooManyLaps({ editionNumber }: Run): StoreProblem {
  const sentence = `This stopwatch was tapped more often than № ${editionNumber} has sections.`;
  return { kind: "invalid-input", sentence };
}

/** The performance that this run was kept with; the trail remembers every run that ever was. */
async function findKept(work: PieceChangeWork, runId: string): Promise<PerformanceRecord | null> {
  const { tx, membership } = work;
  const entry = await tx.auditEntry.findFirst({
    where: { pieceId: membership.pieceId, about: { path: ["runId"], equals: runId } },
    select: { about: true },
  });
  if (!entry) return null;
  const { performanceId } = z.object({ performanceId: z.string() }).parse(entry.about);
  const found = await findPerformance(work, performanceId);
  return found.ok ? found.value : null;
}

async function logRun(
  work: PieceChangeWork,
  run: Run,
  edition: EditionInScore,
  sections: SectionTimings,
): Promise<PerformanceRecord> {
  const { runId, name, startsAt, place, limitSeconds, remarks } = run;
  const { pieceId, userId } = work.membership;
  const { isWhole, realSeconds } = sumSections(sections.sections);
  const row = await work.tx.performance.create({
    data: {
      ...{ pieceId, name, startsAt, place, limitSeconds, remarks, sections, kind: "run_through" },
      ...{ editionId: edition.id, on: toStoredDate(run.on), plannedSeconds: planOf(edition).seconds },
      ...{ realSeconds: isWhole ? realSeconds : null, loggedById: userId },
      ...{ createdAt: now(), changedAt: now() },
    },
    include: performanceParts,
  });
  const about = { performanceId: row.id, editionNumber: edition.number, runId };
  await noteChange(work, { what: "performance logged", about, change: "performances" });
  return toPerformanceRecord(row);
}

async function addToPerformance(
  work: PieceChangeWork,
  run: Run,
  performanceId: string,
  sections: SectionTimings,
): Promise<Result<PerformanceRecord, StoreProblem>> {
  const found = await findPerformance(work, performanceId);
  if (!found.ok) return found;
  const before = found.value;
  if (before.editionNumber !== run.editionNumber) return failure(otherEdition(before.editionNumber));
  const { isWhole, realSeconds } = sumSections(sections.sections);
  const remarks = [before.remarks, run.remarks].filter(Boolean).join("\n");
  const data = { sections, remarks, ...(isWhole && { realSeconds }) };
  const more = { runId: run.runId };
  return success(await rewritePerformance(work, before, data, "stopwatch recorded", more));
}

function otherEdition(number: number): StoreProblem {
  return { kind: "conflict", sentence: `That performance is of № ${number}: its sections are others.` };
}
