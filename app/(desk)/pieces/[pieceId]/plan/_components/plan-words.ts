import type { DeskCut, DeskRunningTime } from "@/app/_data/desk/desk";
import { capital } from "@/app/_ui/capital";
import { sayAgainstLimit } from "@/app/_ui/clock";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import type { RestInTheWay } from "@/lib/cuts/plan/find-obstacle";
import type { RestNeed } from "@/lib/edition/rest-need";
import { isSameSpan } from "@/lib/score/cut-span";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { sayNumber } from "@/lib/score/say-number";
import type { PlannedCandidate } from "@/lib/study/plan-piece";
import { spanOfEnds } from "../../_cuts/cut-questions";
import type { ShownSet } from "./plan-sets";
import type { WhatCounts } from "./wishes";

/** "no cut", "one cut", "three cuts", "12 cuts". */
export function countCuts(count: number): string {
  return `${sayNumber(count, 10)} ${count < 2 ? "cut" : "cuts"}`;
}

/** What the slider says where it stands: "7:24, three cuts". */
export function sayStep({ runs, cuts }: Pick<ShownSet, "runs" | "cuts">, hasAgreed: boolean): string {
  if (cuts.length === 0) return `${sayClock(runs)}, ${hasAgreed ? "no further cut" : "nothing cut"}`;
  return `${sayClock(runs)}, ${countCuts(cuts.length)}`;
}

/** Over the list of cuts: "Three cuts, 0:42 shorter". */
export function sayWhatIsCut({ cuts, saves }: Pick<ShownSet, "saves" | "cuts">, hasAgreed: boolean): string {
  if (cuts.length === 0) return hasAgreed ? "No further cut" : "Everything is played";
  return capital(`${countCuts(cuts.length)}, ${sayClock(saves)} shorter`);
}

/** "with cut 1, which is agreed", "with cuts 1 and 3, which are agreed"; null when nothing is. */
export function sayAgreed(cuts: readonly Pick<DeskCut, "state" | "number" | "isStale">[]): string | null {
  const agreed = cuts.filter(({ state, isStale }) => state === "agreed" && !isStale).map((cut) => cut.number);
  const sorted = agreed.sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  if (sorted.length === 1) return `beside cut ${sorted[0]}, which is agreed`;
  return `beside cuts ${sorted.slice(0, -1).join(", ")} and ${sorted.at(-1)}, which are agreed`;
}

/** What a set comes to against the limit: "0:12 to spare". With a careful clock the slow end is what counts. */
export function saySpare(
  { runs, high }: { readonly runs: number; readonly high: number | null },
  limit: number,
  isCareful: boolean,
): string {
  if (!isCareful) return `${sayAgainstLimit(runs, limit)} by the numbers`;
  return high === null ? "" : `${sayAgainstLimit(high, limit)} at the slow end`;
}

/** "7:57 to 10:09": where performances of so much music lie. */
export const sayRange = ({ low, high }: Pick<DeskRunningTime, "low" | "high">) =>
  `${sayClock(low)} to ${sayClock(high)}`;

/** Cuts that are in the one set and not in the other. */
function cutsOnlyIn(one: ShownSet, other: ShownSet): PlannedCandidate[] {
  return one.cuts.filter((cut) => !other.cuts.some((another) => isSameSpan(cut, another)));
}

const list = (cuts: readonly PlannedCandidate[]) =>
  cuts.map(({ name }) => name.replace(/^bars? /, "")).join(", ");

/** Another set in one line against the best: "with 97–111, without 0–16; 0:08 shorter". */
export function sayDifference(other: ShownSet, best: ShownSet): string {
  const [added, gone] = [cutsOnlyIn(other, best), cutsOnlyIn(best, other)];
  const what = [added.length > 0 && `cuts ${list(added)}`, gone.length > 0 && `plays ${list(gone)}`].filter(
    (part) => part !== false,
  );
  const longer = Math.round(other.runs) - Math.round(best.runs);
  const length =
    longer === 0 ? "as long" : `${sayClock(Math.abs(longer))} ${longer > 0 ? "longer" : "shorter"}`;
  return `${what.join(", ")}; ${length}`;
}

/** The open or agreed proposal with exactly these ends; null when there is none. */
export function standingCut(cuts: readonly DeskCut[], cut: PlannedCandidate): DeskCut | null {
  return (
    cuts.find(
      (one) =>
        !one.isStale && (one.state === "open" || one.state === "agreed") && isSameSpan(spanOfEnds(one), cut),
    ) ?? null
  );
}

/** The reason that goes along with a set that nobody else worded. */
export function sayReason(
  set: ShownSet,
  { standsSeconds, limitSeconds }: { readonly standsSeconds: number; readonly limitSeconds: number | null },
): string {
  const brings = set.cuts.length === 1 ? "brings" : "bring";
  const from = `${capital(countCuts(set.cuts.length))} ${brings} ${sayClock(standsSeconds)} down to ${sayClock(set.runs)}`;
  if (limitSeconds === null) return `${from}.`;
  const over = Math.round(set.runs) - Math.round(limitSeconds);
  const limit = `the limit of ${sayClock(limitSeconds)}`;
  return over > 0 ? `${from}, ${sayClock(over)} over ${limit}.` : `${from}, within ${limit}.`;
}

/** "0:20" or "8 bars". */
export function sayNeeded({ needs }: Pick<RestNeed, "needs">): string {
  return "seconds" in needs ? sayClock(needs.seconds) : sayBarCount(needs.bars);
}

/** What is left of a needed rest, rounded down so that it never says more than there is: "0:24", "9 bars". */
export function sayRestLeft({ seconds, bars: inBars }: Pick<CheckedNeed, "seconds" | "bars">): string {
  return seconds.needed !== null ? sayClock(Math.floor(seconds.after + 1e-6)) : sayBarCount(inBars.after);
}

/** How a needed rest comes out of a set, in a word or two. */
export function sayNeedVerdict(
  { verdict, seconds, bars: inBars }: CheckedNeed,
  releasedBy: string | null,
): string {
  const short =
    seconds.needed !== null ? sayClock(Math.ceil(seconds.shortBy - 1e-6)) : sayBarCount(inBars.shortBy);
  switch (verdict) {
    case "kept":
      return "enough";
    case "short":
      return `${short} short`;
    case "short anyway":
      return `${short} short, cuts or not`;
    case "released":
      return releasedBy === null ? "let go" : `let go by ${releasedBy}`;
    case "no rest":
      return "no rest is left here";
  }
}

/** "The rest before bar 97 can be 17 s at most: 3 s less than the 0:20 Matthis asked for (lip)." */
export function sayRestInTheWay(
  { unit, left, shortBy }: RestInTheWay,
  need: RestNeed,
  soloist: string,
): string {
  const isInSeconds = unit === "seconds";
  const stays = isInSeconds ? sayClock(Math.floor(left + 1e-6)) : sayBarCount(left);
  const missing = isInSeconds ? sayClock(Math.ceil(shortBy - 1e-6)) : sayBarCount(shortBy);
  return `At most ${stays} could stay: ${missing} less than the ${sayNeeded(need)} ${soloist} asked for (${need.why}).`;
}

export const countsWords: Readonly<Record<WhatCounts, string>> = {
  joins: "Good joins",
  fewer: "Fewer cuts",
  shorter: "Shorter cuts",
};
