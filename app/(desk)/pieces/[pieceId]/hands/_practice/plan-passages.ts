import { localDay } from "@/lib/practice/days";
import { findEntries } from "@/lib/practice/find-entries";
import { needOf } from "@/lib/practice/order-passages";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { type PracticePassage, passageKey } from "@/lib/practice/practice-passage";
import type { PlanPassage } from "@/lib/practice/rehearsal-plan";
import { planLadder } from "@/lib/practice/tempo-ladder";

/** Passages as the plan sees them: how many rungs are left, and when each was practised, by this device's calendar. */
export function toPlanPassages(
  passages: readonly PracticePassage[],
  log: readonly PracticeRecord[],
): PlanPassage[] {
  return passages.map((passage) => {
    const { rungs, current, isClimbed } = planLadder(passage, log);
    const last = findEntries(passage, log).at(-1);
    return {
      key: passageKey(passage),
      need: needOf(passage),
      rungsLeft: isClimbed ? 0 : rungs.length - current,
      lastOn: last ? localDay(new Date(last.at)) : null,
    };
  });
}
