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

/** A cut that every set has, because both have agreed it. Agreed cuts that touch are one. */
export interface AgreedCut {
  readonly cut: CutSpan;
  readonly savedSeconds: Seconds;
}

/** A set of cuts with what it was chosen by. */
export interface PlannedSet {
  /** The new ones, in written order: what would have to be agreed still. */
  readonly cuts: readonly PlannedCut[];
  /** Those that are in the set because they are agreed already, in written order. */
  readonly agreed: readonly AgreedCut[];
  /** By the clock of the limit, at the pace asked for; the savings of all cuts, new and agreed, add up to it exactly. */
  readonly savedSeconds: Seconds;
  /** What the new cuts alone save. */
  readonly newlySavedSeconds: Seconds;
  readonly runsSeconds: Seconds;
  readonly cost: number;
  readonly evidence: {
    /** By the numbers, with its range. */
    readonly runningTime: RunningTime;
    /** Every need that was given, released ones too, with what is left of its rest. */
    readonly rests: readonly RestUnderCuts[];
  };
}

export function describeAgreed({ ground, candidates, agreed }: PlanSetting): AgreedCut[] {
  if (agreed.length === 0) return [];
  const saved = new Map(ground.cuts.map((cut) => [cut.index, cut.savedMilliseconds]));
  return agreed.map((cut, at) => {
    return { cut, savedSeconds: seconds((saved.get(candidates.length + at) ?? 0) / 1000) };
  });
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
  const spans: CutSpan[] = [...cuts.map(({ candidate }) => candidate), ...setting.agreed];
  const rests = cutRests(reading, spans);
  const newlySaved = chosen.reduce((sum, { cut }) => sum + cut.savedMilliseconds, 0);
  return {
    cuts,
    agreed: describeAgreed(setting),
    newlySavedSeconds: seconds(newlySaved / 1000),
    savedSeconds: seconds(choice.savedMilliseconds / 1000),
    runsSeconds: seconds((setting.wholeMilliseconds - choice.savedMilliseconds) / 1000),
    cost: choice.cost / costUnit,
    evidence: {
      runningTime: findRunningTime(score, leaveOut(score, reading.order, spans), map),
      rests: (setting.options.rests ?? []).map((need) => measureNeed(reading, rests, need)),
    },
  };
}
