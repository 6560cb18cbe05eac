import type { Desk } from "@/app/_data/desk/desk";
import { type Ink, inkOf } from "@/app/_ui/party";
import type { StripCut, StripPiece } from "@/app/_ui/strip/strip-piece";
import { quartersAsNumber } from "@/lib/score/quarters";
import type { PlannedCandidate } from "@/lib/study/plan-piece";
import { personOf } from "../../_components/person";
import { standingCut } from "./plan-words";

/** A cut's key on this screen: its two ends. */
export function keyOfCut({ from, to }: Pick<PlannedCandidate, "from" | "to">): string {
  const place = ({ barIndex, offset }: PlannedCandidate["from"]) => `${barIndex}.${offset.num}-${offset.den}`;
  return `${place(from)}_${place(to)}`;
}

/** The numbers that the cuts of a set bear: their own where they are proposed already, else those that would come next. */
export function numberCuts(
  { cuts }: Pick<Desk, "cuts">,
  set: readonly PlannedCandidate[],
): readonly number[] {
  let next = Math.max(0, ...cuts.map(({ number }) => number)) + 1;
  return set.map((cut) => {
    const standing = standingCut(cuts, cut);
    if (standing) return standing.number;
    next += 1;
    return next - 1;
  });
}

/** One's own for a draft, the proposer's for a cut that is proposed already. */
export function inkOfDraft(desk: Pick<Desk, "cuts" | "people" | "me">, cut: PlannedCandidate): Ink {
  const standing = standingCut(desk.cuts, cut);
  return inkOf(standing ? personOf(desk, standing.proposedBy).role : desk.me.role);
}

/** About how many bars a cut takes, for what is said of it before it is weighed. */
function countBars({ from, to }: PlannedCandidate): number {
  const isInto = quartersAsNumber(to.offset) > quartersAsNumber(from.offset) ? 1 : 0;
  return Math.max(1, to.barIndex - from.barIndex + isInto);
}

/** The strip with the agreed cuts and a set as drafts. Proposals that are not in the set are not part of the plan. */
export function stripWithDrafts(
  desk: Pick<Desk, "strip" | "cuts" | "people" | "me">,
  set: readonly PlannedCandidate[],
): StripPiece {
  const numbers = numberCuts(desk, set);
  const drafts = set.map((cut, index): StripCut => {
    const savedSeconds = cut.gaps.reduce((sum, { from, to }) => sum + to - from, 0);
    return {
      ...{
        id: keyOfCut(cut),
        number: numbers[index] ?? 0,
        state: "open",
        ink: inkOfDraft(desk, cut),
        name: cut.name,
      },
      ...{ barCount: countBars(cut), savedSeconds, gaps: cut.gaps },
    };
  });
  const agreed = desk.strip.cuts.filter(({ state }) => state === "agreed");
  return { ...desk.strip, cuts: [...agreed, ...drafts] };
}
