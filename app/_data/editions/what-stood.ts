import { sayMonth, sayWholeDay } from "@/app/_ui/say-date";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { findStanding, readDaySpan } from "@/lib/edition/find-standing";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { StoodThen } from "./editions-view";

interface Known {
  readonly editions: readonly EditionRecord[];
  readonly performances: readonly PerformanceRecord[];
}

/** What stood and what was played then; null when nothing is asked. */
export function findWhatStood({ editions, performances }: Known, asked: unknown): StoodThen | null {
  if (typeof asked !== "string" || asked === "") return null;
  const performance = performances.find(({ id }) => id === asked);
  if (performance) {
    const { editionNumber, name } = performance;
    const stood = [{ number: editionNumber, words: sayFrozen(editions, editionNumber) }];
    return { asked, problem: null, name, stood, performances: [performance] };
  }
  const days = readDaySpan(asked);
  if (days === null)
    return {
      asked,
      problem: "Choose a month, a day or a performance.",
      name: "",
      stood: [],
      performances: [],
    };
  const frozen = editions.map(({ number, frozenAt }) => ({ number, day: isoDateOf(frozenAt) }));
  const numbers = findStanding(frozen, days);
  return {
    asked,
    problem: null,
    name: days.from === days.to ? sayWholeDay(days.from) : sayMonth(days.from),
    stood: numbers.map((number) => ({ number, words: sayFrozen(editions, number) })),
    performances: performances.filter(({ on }) => on >= days.from && on <= days.to),
  };
}

/** The day in UTC, as all screens tell it. */

/** "frozen on 14 May 2026, until № 3 on 2 June 2026". */
function sayFrozen(editions: readonly EditionRecord[], number: number): string {
  const find = (wanted: number) => editions.find((edition) => edition.number === wanted);
  const [edition, next] = [find(number), find(number + 1)];
  if (!edition) return "";
  const since = `frozen on ${sayWholeDay(isoDateOf(edition.frozenAt))}`;
  return next ? `${since}, until № ${next.number} on ${sayWholeDay(isoDateOf(next.frozenAt))}` : since;
}
