import { z } from "zod";

/** Longest section that is believed: as the longest timing of the duo's own. */
const mostSeconds = 36_000;

export const sectionTimingSchema = z.strictObject({
  name: z.string().max(200),
  isLetter: z.boolean(),
  plannedSeconds: z.number().min(0).max(mostSeconds),
  /** By the stopwatch; null for a section that was not played, or not to its end. */
  realSeconds: z.number().min(0).max(mostSeconds).nullable(),
});

/** Planned and tapped time of one section of an edition. */
export type SectionTiming = z.infer<typeof sectionTimingSchema>;

/** What a stopwatch was tapped through: the sections of `playEdition`, in the same order. */
export const sectionTimingsSchema = z.strictObject({
  /** Made by the device that tapped, so that what is sent twice is kept once. */
  runId: z.uuid(),
  startedAt: z.iso.datetime(),
  /** The page was reloaded or the device slept meanwhile: the device's clock told the time, not a stopwatch. */
  byDeviceClock: z.boolean(),
  sections: z.array(sectionTimingSchema).min(1).max(500),
});

export type SectionTimings = z.infer<typeof sectionTimingsSchema>;

/** Real times of sections that follow one another from the first on, and whether they are all of them. */
export function sumSections(sections: readonly Pick<SectionTiming, "plannedSeconds" | "realSeconds">[]): {
  readonly realSeconds: number;
  /** Of the same sections. */
  readonly plannedSeconds: number;
  readonly isWhole: boolean;
} {
  const played = sections.filter(({ realSeconds }) => realSeconds !== null);
  return {
    realSeconds: played.reduce((sum, { realSeconds }) => sum + (realSeconds ?? 0), 0),
    plannedSeconds: played.reduce((sum, { plannedSeconds }) => sum + plannedSeconds, 0),
    isWhole: played.length > 0 && played.length === sections.length,
  };
}

/**
 * Laps of a stopwatch laid on the sections they were tapped for.
 *
 * @param firstSection index of the section that the first lap is of.
 * @param lapSeconds lengths of laps, one a section.
 * @throws RangeError when there are more laps than sections from there on.
 */
export function layLaps(
  sections: readonly Pick<SectionTiming, "name" | "isLetter" | "plannedSeconds">[],
  firstSection: number,
  lapSeconds: readonly number[],
): SectionTiming[] {
  if (firstSection + lapSeconds.length > sections.length)
    throw new RangeError(`${lapSeconds.length} laps from ${firstSection} on, in ${sections.length} sections`);
  return sections.map(({ name, isLetter, plannedSeconds }, index) => ({
    ...{ name, isLetter, plannedSeconds },
    realSeconds: lapSeconds[index - firstSection] ?? null,
  }));
}
