import { isoDateOf } from "@/lib/calendar/iso-date";
import { failure, type Result, success } from "@/lib/score/result";
import type { StoreProblem } from "../store-problem";

/** How long a reader's link is to last: a span from now, or through a day (ISO 8601 date). */
export type LinkLasting = "1 day" | "1 week" | (string & {});

const day = 24 * 60 * 60 * 1000;
const daysAfterPerformance = 7;
const daysWithoutPerformance = 30;
/** A link that lasts longer is forgotten by whoever gave it. */
const mostDays = 366;

/** The last day on which a link works when nothing else is said: a week after the next performance, else 30 days from now. */
export function suggestLastDay(now: Date, nextPerformance: string | null): string {
  const [from, days] = nextPerformance
    ? [new Date(`${nextPerformance}T00:00:00Z`), daysAfterPerformance]
    : [now, daysWithoutPerformance];
  return isoDateOf(new Date(from.getTime() + days * day));
}

/** When a link ends. A day is not over before it is over everywhere on earth, twelve hours behind UTC. */
export function chooseExpiry(now: Date, lasting: LinkLasting): Result<Date, StoreProblem> {
  const expiresAt = endOf(now, lasting);
  if (expiresAt <= now) return refuse("This day is over. Choose a later one.");
  if (expiresAt.getTime() - now.getTime() > (mostDays + 2) * day)
    return refuse("A link lasts at most a year. Choose an earlier day.");
  return success(expiresAt);
}

/** The last day on which a link works, as it was asked for (ISO 8601 date). */
export function lastDayOf(expiresAt: Date): string {
  const isEndOfDay = expiresAt.toISOString().endsWith("T12:00:00.000Z");
  return isoDateOf(new Date(expiresAt.getTime() - (isEndOfDay ? 0.5 * day + 1 : 0)));
}

function endOf(now: Date, lasting: LinkLasting): Date {
  if (lasting === "1 day") return new Date(now.getTime() + day);
  if (lasting === "1 week") return new Date(now.getTime() + 7 * day);
  return new Date(new Date(`${lasting}T00:00:00Z`).getTime() + 1.5 * day);
}

const refuse = (sentence: string): Result<never, StoreProblem> =>
  failure({ kind: "invalid-input", sentence });
