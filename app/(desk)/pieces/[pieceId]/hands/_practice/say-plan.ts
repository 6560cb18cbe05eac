import { sayDay } from "@/app/_ui/say-date";
import { dayAfter, daysBetween } from "@/lib/practice/days";
import type { PlannedDay, RehearsalPlan, SessionReason } from "@/lib/practice/rehearsal-plan";

/** "Today", "Tomorrow", "Sun 22 Feb". */
export function sayPlannedDay(on: string, today: string): string {
  if (on === today) return "Today";
  if (on === dayAfter(today, 1)) return "Tomorrow";
  return sayDay(on, new Date(today));
}

/** "12 days until then". */
export function sayDaysLeft(performanceOn: string, today: string): string {
  const days = daysBetween(today, performanceOn);
  if (days < 0) return "that day is over";
  if (days === 0) return "that is today";
  return days === 1 ? "that is tomorrow" : `${days} days until then`;
}

/** "for the first time", "after 4 days", said of a passage on a day. */
export function sayReason(reason: SessionReason): string {
  if (reason.kind === "first") return "for the first time";
  return reason.daysSince === 1 ? "after 1 day" : `after ${reason.daysSince} days`;
}

/** What a day has beside its passages; null when nothing. */
export function sayRunThrough({ isLast, runThroughMinutes }: PlannedDay): string | null {
  if (isLast) return "Run-throughs only";
  return runThroughMinutes > 0 ? "Run through" : null;
}

/** What the plan was computed from. */
export function sayPlanEvidence({ evidence }: RehearsalPlan): string {
  const { practiceDays, blocksADay, blockMinutes, openPassages, rungsLeft } = evidence;
  const days = practiceDays === 1 ? "1 day" : `${practiceDays} days`;
  const open = openPassages === 1 ? "1 passage" : `${openPassages} passages`;
  return `${days} before the last, ${blocksADay} blocks of ${blockMinutes} minutes in each; ${open} not yet at tempo with ${rungsLeft} rungs left.`;
}
