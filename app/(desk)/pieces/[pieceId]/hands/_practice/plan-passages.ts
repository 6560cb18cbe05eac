import { localDay } from "@/lib/practice/days";
import { findEntries } from "@/lib/practice/find-entries";
import { needOf } from "@/lib/practice/order-passages";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { type PracticePassage, passageKey } from "@/lib/practice/practice-passage";
import { findReachedTempo } from "@/lib/practice/reached-tempo";
import type { PlanPassage } from "@/lib/practice/rehearsal-plan";

/** Passages as the plan sees them: what is open, and on which days it was practised, by this device's calendar. */
export function toPlanPassages(
  passages: readonly PracticePassage[],
  log: readonly PracticeRecord[],
): PlanPassage[] {
  return passages.map((passage) => {
    const days = [...new Set(findEntries(passage, log).map(({ at }) => localDay(new Date(at))))].sort();
    return {
      key: passageKey(passage),
      need: needOf(passage),
      isOpen: findReachedTempo(passage, log).standing !== "at tempo",
      daysPractised: days.length,
      lastOn: days.at(-1) ?? null,
    };
  });
}
