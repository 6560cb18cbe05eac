import { type EntryTimes, type ProgrammeSum, sumProgramme } from "@/lib/edition/sum-programme";
import type { ProgrammeEntry, ProgrammeRecord } from "@/lib/store/programmes/programme-record";

/** What a programme takes, as far as the viewer knows its entries. */
export function sumOf({ entries, own }: Pick<ProgrammeRecord, "entries" | "own">): ProgrammeSum {
  return sumProgramme(entries.filter(isPlayed).map(timesOf), own?.stopsBetween ?? false);
}

/** A performance that was taken off is not played. */
function isPlayed(entry: ProgrammeEntry): boolean {
  return entry.kind !== "performance" || !entry.performance.isRemoved;
}

export function timesOf(entry: ProgrammeEntry): EntryTimes {
  const { gapSeconds } = entry;
  if (entry.kind === "another piece") return { gapSeconds, expected: null, realSeconds: null };
  if (entry.kind === "performance")
    return { gapSeconds, expected: entry.expected, realSeconds: entry.performance.realSeconds };
  const { plannedSeconds: seconds, realSeconds } = entry;
  return {
    ...{ gapSeconds, realSeconds },
    expected: seconds === null ? null : { seconds, low: seconds, high: seconds },
  };
}
