import type { RestNeed } from "@/lib/edition/rest-need";
import { sayClock } from "@/lib/score/say-clock";
import { sayLeft, sayMissing } from "@/lib/score/say-seconds";
import type { RestInTheWay } from "./find-obstacle";
import type { CutPlan } from "./plan-cuts";

const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`;

function sayRest({ needId, unit, left, shortBy }: RestInTheWay, needs: readonly RestNeed[]): string {
  const why = needs.find(({ id }) => id === needId)?.why ?? "rest";
  const missing = unit === "seconds" ? sayMissing(shortBy) : count(shortBy, "bar", "bars");
  const stays = unit === "seconds" ? sayLeft(left) : count(left, "bar", "bars");
  return `One rest stands in the way (${why}): the most that can stay is ${stays}, ${missing} less than needed.`;
}

/** From a minute on as a clock, rounded up like the seconds below it. */
const sayOver = (seconds: number) => (seconds < 60 ? sayMissing(seconds) : sayClock(Math.ceil(seconds)));

/** The plan in one or two sentences. */
export function sayPlan(plan: Omit<CutPlan, "sentence">, needs: readonly RestNeed[]): string {
  const { best, agreed, obstacle, wholeSeconds, standsSeconds, limitSeconds, shortest } = plan;
  const stands =
    agreed.length === 0
      ? `${sayClock(wholeSeconds)} as written`
      : `${sayClock(standsSeconds)} with ${count(agreed.length, "cut", "cuts")} agreed`;
  if (limitSeconds === null) return `${stands}; no limit is set.`;
  const limit = `the limit of ${sayClock(limitSeconds)}`;
  if (best) {
    if (best.cuts.length === 0)
      return agreed.length === 0
        ? `${sayClock(wholeSeconds)}: everything can be played within ${limit}.`
        : `${stands}, within ${limit}: no further cut is needed.`;
    const more = agreed.length === 0 ? ["cut brings", "cuts bring"] : ["more cut brings", "more cuts bring"];
    const cuts = count(best.cuts.length, more[0] ?? "", more[1] ?? "");
    return `${cuts} ${sayClock(standsSeconds)} down to ${sayClock(best.runsSeconds)}, within ${limit}.`;
  }
  const misses = sayOver(obstacle?.missesBySeconds ?? 0);
  const as = `As short as it gets is ${sayClock(shortest.runsSeconds)}, ${misses} over ${limit}.`;
  const [rest] = obstacle?.rests ?? [];
  if (rest) return `${as} ${sayRest(rest, needs)}`;
  const [keep] = obstacle?.keep ?? [];
  if (keep) return `${as} It could be met without what is kept: ${keep.why}.`;
  const without = obstacle?.missesWithoutNeedsBySeconds ?? 0;
  if (without <= 0) return `${as} More than one of the needed rests stands in the way.`;
  return `${as} Even with no rest kept these cuts miss it by ${sayOver(without)}.`;
}
