import { z } from "zod";
import { layLaps, type SectionTiming, sectionTimingSchema } from "@/lib/edition/section-timings";

/** A second touch of a finger that came down once, in milliseconds; no section is as short. */
const bounceMilliseconds = 500;

const plannedSectionSchema = sectionTimingSchema.omit({ realSeconds: true });

export type PlannedSection = z.infer<typeof plannedSectionSchema>;

/** What a run is to be kept with, once its player has said so. */
const targetSchema = z.strictObject({
  /** A performance that was logged before; null for a run-through of its own. */
  performanceId: z.string().max(100).nullable(),
  name: z.string().min(1).max(200),
  place: z.string().max(200),
  remarks: z.string().max(2000),
});

export type RunTarget = z.infer<typeof targetSchema>;

/** One stopwatch, as it is kept on the device from the first moment until the server has it. */
export const runSchema = z.strictObject({
  version: z.literal(1),
  runId: z.uuid(),
  pieceId: z.string().max(100),
  pieceTitle: z.string().max(500),
  editionNumber: z.int().min(1),
  limitSeconds: z.number().positive().nullable(),
  sections: z.array(plannedSectionSchema).min(1).max(500),
  /** The performance it was begun for; null for a run-through. */
  performanceId: z.string().max(100).nullable(),
  /** Index of the section it began with. */
  firstSection: z.int().min(0),
  /** By the device's clock, in milliseconds since 1970: what a reload or a locked screen goes on from. */
  startedAt: z.int().positive(),
  /** Milliseconds since the start at which a section ended, one after the other. */
  taps: z.array(z.int().positive()).max(500),
  /** Milliseconds since the start; null while it runs. */
  stoppedAt: z.int().min(0).nullable(),
  /** The page was reloaded or the device slept: the device's clock told the time meanwhile. */
  byDeviceClock: z.boolean(),
  /** Set when it is to be sent. */
  target: targetSchema.nullable(),
  /** Why the server refused it; null while it has not. */
  refusal: z.string().nullable(),
});

export type Run = z.infer<typeof runSchema>;

/** What a stopwatch is started for. */
export type RunStart = Pick<
  Run,
  "pieceId" | "pieceTitle" | "editionNumber" | "limitSeconds" | "sections" | "performanceId" | "firstSection"
>;

/** @param at milliseconds since 1970. */
export function startRun(start: RunStart, runId: string, at: number): Run {
  return {
    ...{ version: 1, runId, ...start, startedAt: Math.round(at), taps: [], stoppedAt: null },
    ...{ byDeviceClock: false, target: null, refusal: null },
  };
}

/** Index of the section that is being played; that of the last one once it has ended. */
export function sectionOf({ firstSection, taps, sections }: Run): number {
  return Math.min(firstSection + taps.length, sections.length - 1);
}

export function isLastSection(run: Run): boolean {
  return run.firstSection + run.taps.length >= run.sections.length - 1;
}

/** The section ends here; with the last one the run does. A second touch at once counts as the same. */
export function tapRun(run: Run, at: number): Run {
  const tap = Math.round(at - run.startedAt);
  if (run.stoppedAt !== null || tap - (run.taps.at(-1) ?? 0) < bounceMilliseconds) return run;
  return { ...run, taps: [...run.taps, tap], stoppedAt: isLastSection(run) ? tap : null };
}

/** Stops in the middle of a section, which then has no time. */
export function stopRun(run: Run, at: number): Run {
  if (run.stoppedAt !== null) return run;
  return { ...run, stoppedAt: Math.max(Math.round(at - run.startedAt), run.taps.at(-1) ?? 0) };
}

/** Takes the last touch back, be it a tap or the stop; the clock went on meanwhile. */
export function undoRun(run: Run): Run {
  const wasStop = run.stoppedAt !== null && run.stoppedAt !== run.taps.at(-1);
  return { ...run, stoppedAt: null, taps: wasStop ? run.taps : run.taps.slice(0, -1) };
}

export function canUndo({ taps, stoppedAt }: Run): boolean {
  return taps.length > 0 || stoppedAt !== null;
}

/** Lengths of the sections that ended, in milliseconds. */
export function lapsOf({ taps }: Run): number[] {
  return taps.map((tap, index) => tap - (taps[index - 1] ?? 0));
}

/** Planned beside real, for every section of the edition. */
export function timingsOf(run: Run): SectionTiming[] {
  return layLaps(
    run.sections,
    run.firstSection,
    lapsOf(run).map((lap) => lap / 1000),
  );
}

/** Seconds behind the plan (before it, when negative) at the end of the last section that ended; null before that. */
export function behindPlan(run: Run): number | null {
  const played = run.sections.slice(run.firstSection, run.firstSection + run.taps.length);
  const end = run.taps.at(-1);
  return end === undefined ? null : end / 1000 - played.reduce((sum, one) => sum + one.plannedSeconds, 0);
}

/** A run as the server takes it, with the local date and time at which it began. */
export function toSend(run: Run, target: RunTarget) {
  const started = new Date(run.startedAt);
  const two = (value: number) => `${value}`.padStart(2, "0");
  const { pieceId, runId, editionNumber, byDeviceClock, firstSection, limitSeconds } = run;
  return {
    ...{ pieceId, runId, editionNumber, byDeviceClock, firstSection, limitSeconds, ...target },
    startedAt: started.toISOString(),
    lapsMilliseconds: lapsOf(run),
    on: `${started.getFullYear()}-${two(started.getMonth() + 1)}-${two(started.getDate())}`,
    startsAt: `${two(started.getHours())}:${two(started.getMinutes())}`,
  };
}
