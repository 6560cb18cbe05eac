/** How long something is expected to take, by the numbers and as it may come out on stage. */
export interface Expected {
  readonly seconds: number;
  readonly low: number;
  readonly high: number;
}

/** One entry of a programme as a clock sees it. */
export interface EntryTimes {
  /** Silence, tuning, walking on before it. */
  readonly gapSeconds: number;
  /** Null where nobody here knows it. */
  readonly expected: Expected | null;
  /** By the clock; null until it was played. */
  readonly realSeconds: number | null;
}

/** A programme's time on the clock of its limit. */
export interface ProgrammeSum extends Expected {
  /** Of `seconds`, what is between the entries. */
  readonly gapSeconds: number;
  /** All of it by the clock, planned gaps between; null until every entry was played. */
  readonly realSeconds: number | null;
  /** Entries whose time nobody here knows; they are in no sum. */
  readonly unknown: number;
}

/**
 * Adds up a programme from its first sound to its last: what comes before the first entry is not on the clock. An entry
 * that was played counts by the clock, without a range. The ranges of the entries are added up end to end, because the
 * same two people hurry or linger in all of them.
 *
 * @param stopsBetween whether the clock stands still between entries. Source: rules of competitions differ in this.
 */
export function sumProgramme(entries: readonly EntryTimes[], stopsBetween: boolean): ProgrammeSum {
  const gapSeconds = stopsBetween ? 0 : sum(entries.slice(1).map((entry) => entry.gapSeconds));
  const known = entries.flatMap(({ expected, realSeconds }) =>
    realSeconds === null ? (expected ?? []) : { seconds: realSeconds, low: realSeconds, high: realSeconds },
  );
  const isPlayed = entries.length > 0 && entries.every(({ realSeconds }) => realSeconds !== null);
  const seconds = gapSeconds + sum(known.map((one) => one.seconds));
  return {
    ...{ seconds, gapSeconds, unknown: entries.length - known.length },
    low: gapSeconds + sum(known.map(({ low }) => low)),
    high: gapSeconds + sum(known.map(({ high }) => high)),
    realSeconds: isPlayed ? seconds : null,
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, one) => all + one, 0);
}
