import type { Desk } from "@/app/_data/desk/desk";
import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { nameSoloist } from "../_components/person";

/** "0:03" or "2 bars": seconds rounded up, so that what is missing is never said to be less. */
function sayAmount(need: CheckedNeed, of: "needed" | "shortBy" | "more"): string {
  const isInSeconds = need.seconds.needed !== null;
  const figures = isInSeconds ? need.seconds : need.bars;
  const needed = figures.needed ?? 0;
  const amount = of === "needed" ? needed : of === "shortBy" ? figures.shortBy : figures.after - needed;
  if (isInSeconds) return sayClock(of === "more" ? Math.floor(amount + 1e-6) : Math.ceil(amount - 1e-6));
  return sayBarCount(amount);
}

/** A needed rest under a cut, in few words: "0:03 short of the 0:20 Matthis asked for". The first part is the point. */
export function sayNeedUnder(
  desk: Pick<Desk, "people" | "me">,
  need: CheckedNeed,
): { point: string; rest: string } {
  const asked = `of the ${sayAmount(need, "needed")} ${nameSoloist(desk)} asked for`;
  switch (need.verdict) {
    case "short":
      return { point: `${sayAmount(need, "shortBy")} short`, rest: asked };
    case "short anyway":
      return { point: `${sayAmount(need, "shortBy")} short`, rest: `${asked}, with or without this cut` };
    case "released":
      return { point: "Let go:", rest: `the ${sayAmount(need, "needed")} ${nameSoloist(desk)} asked for` };
    case "no rest":
      return { point: "No rest", rest: "is left where one is needed" };
    case "kept": {
      const more = sayAmount(need, "more");
      const isExact = more === "0:00" || more === "0 bars";
      return isExact
        ? { point: "Just", rest: `the ${sayAmount(need, "needed")} ${nameSoloist(desk)} asked for` }
        : { point: `${more} more`, rest: asked.replace("of the", "than the") };
    }
  }
}

/** The needs that a cut robs. */
export function robbed(needs: readonly CheckedNeed[]): CheckedNeed[] {
  return needs.filter(({ verdict }) => verdict === "short");
}

/** The need that says most about a cut: what is short before what is kept, the shortest before. */
export function tellingNeed(needs: readonly CheckedNeed[]): CheckedNeed | null {
  const order = ["short", "no rest", "short anyway", "kept", "released"];
  const shortBy = ({ seconds, bars }: CheckedNeed) => seconds.shortBy + bars.shortBy;
  const sorted = [...needs].sort(
    (a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict) || shortBy(b) - shortBy(a),
  );
  return sorted[0] ?? null;
}
