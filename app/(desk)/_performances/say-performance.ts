import { sayAgainstLimit } from "@/app/_ui/clock";
import { sayClock } from "@/lib/score/say-clock";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";

type Times = Pick<PerformanceRecord, "plannedSeconds" | "realSeconds" | "limitSeconds">;

/** The kinds of occasions, as one chooses them. */
export const occasionWords = {
  jury: "jury",
  examination: "examination",
  competition: "competition",
  recital: "recital",
  "run-through": "run-through",
} as const satisfies Readonly<Record<PerformanceRecord["kind"], string>>;

/** "jury, limit 13:00 · 10:40 · Kestrel Hall". */
export function sayOccasion({
  kind,
  limitSeconds,
  startsAt,
  place,
}: Pick<PerformanceRecord, "kind" | "limitSeconds" | "startsAt" | "place">): string {
  const limit = limitSeconds === null ? "" : `, limit ${sayClock(limitSeconds)}`;
  return [`${occasionWords[kind]}${limit}`, startsAt, place].filter(Boolean).join(" · ");
}

/** "0:07 over plan", "0:12 under plan", "as planned". */
export function sayAgainstPlan(realSeconds: number, plannedSeconds: number): string {
  const over = Math.round(realSeconds) - Math.round(plannedSeconds);
  if (over === 0) return "as planned";
  return over > 0 ? `${sayClock(over)} over plan` : `${sayClock(-over)} under plan`;
}

/** "0:04 more", "0:02 less", "as planned": a real time beside the planned one, in a column. */
export function sayMore(realSeconds: number, plannedSeconds: number): string {
  const more = Math.round(realSeconds - plannedSeconds);
  if (more === 0) return "as planned";
  return more > 0 ? `${sayClock(more)} more` : `${sayClock(-more)} less`;
}

/** The time by the clock, or the planned one, with what it is measured against. */
export function sayTimes({ plannedSeconds, realSeconds, limitSeconds }: Times): {
  time: string;
  against: string[];
} {
  const ofLimit = (seconds: number) =>
    limitSeconds === null ? [] : [sayAgainstLimit(seconds, limitSeconds)];
  if (realSeconds === null)
    return { time: sayClock(plannedSeconds), against: ["planned", ...ofLimit(plannedSeconds)] };
  return {
    time: sayClock(realSeconds),
    against: [sayAgainstPlan(realSeconds, plannedSeconds), ...ofLimit(realSeconds)],
  };
}

/** Whether it lies ahead: from today on, and no time by the clock yet. Both dates as ISO 8601. */
export function isUpcoming(
  { on, realSeconds }: Pick<PerformanceRecord, "on" | "realSeconds">,
  today: string,
): boolean {
  return on >= today && realSeconds === null;
}

/** "today", "tomorrow", "in 19 days". */
export function sayDaysUntil(on: string, today: string): string {
  const days = Math.round((Date.parse(on) - Date.parse(today)) / 86_400_000);
  if (days <= 0) return "today";
  return days === 1 ? "tomorrow" : `in ${days} days`;
}
