import { measureNeed, type RestUnderCuts } from "@/lib/edition/rest-under-cuts";
import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import { cutRests } from "@/lib/score/rest-left";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import { type Seconds, seconds } from "@/lib/score/seconds";
import { type Choice, listCuts } from "./combine-choices";
import { type CutCandidate, costRows, costUnit } from "./cut-candidate";
import type { PlanSetting } from "./plan-setting";

/** One cut of a set: what it saves and costs. Costs in the caller's unit. */
export interface PlannedCut {
  /** In the caller's list. */
  readonly index: number;
  readonly candidate: CutCandidate;
  readonly savedSeconds: Seconds;
  readonly cost: { readonly join: number; readonly cut: number; readonly music: number };
}

/** A set of cuts with what it was chosen by. */
export interface PlannedSet {
  /** In written order. */
  readonly cuts: readonly PlannedCut[];
  /** By the clock of the limit, at the pace asked for; the cuts' savings add up to it exactly. */
  readonly savedSeconds: Seconds;
  readonly runsSeconds: Seconds;
  readonly cost: number;
  readonly evidence: {
    /** By the numbers, with its range. */
    readonly runningTime: RunningTime;
    /** Every need that was given, released ones too, with what is left of its rest. */
    readonly rests: readonly RestUnderCuts[];
  };
}

/** @param choice of the same setting. */
export function describeSet(setting: PlanSetting, choice: Choice): PlannedSet {
  const { score, map, ground, candidates, weights, reading } = setting;
  const byIndex = new Map(ground.cuts.map((cut) => [cut.index, cut]));
  const chosen = listCuts(choice).flatMap((index) => {
    const [candidate, cut] = [candidates[index], byIndex.get(index)];
    return candidate && cut ? [{ index, candidate, cut }] : [];
  });
  const cuts = chosen
    .toSorted((a, b) => a.cut.from - b.cut.from)
    .map(({ index, candidate, cut }): PlannedCut => {
      const rows = costRows(candidate, cut.savedMilliseconds, weights);
      const cost = { join: rows.join / costUnit, cut: rows.cut / costUnit, music: rows.music / costUnit };
      return { index, candidate, savedSeconds: seconds(cut.savedMilliseconds / 1000), cost };
    });
  const spans: CutSpan[] = cuts.map(({ candidate }) => candidate);
  const rests = cutRests(reading, spans);
  return {
    cuts,
    savedSeconds: seconds(choice.savedMilliseconds / 1000),
    runsSeconds: seconds((setting.wholeMilliseconds - choice.savedMilliseconds) / 1000),
    cost: choice.cost / costUnit,
    evidence: {
      runningTime: findRunningTime(score, leaveOut(score, reading.order, spans), map),
      rests: (setting.options.rests ?? []).map((need) => measureNeed(reading, rests, need)),
    },
  };
}
