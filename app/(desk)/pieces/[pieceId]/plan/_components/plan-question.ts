import type { Desk } from "@/app/_data/desk/desk";
import { nameSpan } from "@/app/_ui/name-span";
import type { PlanWeights } from "@/lib/cuts/plan/cut-candidate";
import { comparePositions, type Position } from "@/lib/score/position";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import type { PlanQuestion } from "@/lib/study/plan-piece";
import { agreedCuts, type CutEnds, spanOfEnds } from "../../_cuts/cut-questions";
import { lettersWithin } from "../../_search/search-settings";
import type { WhatCounts, Wishes } from "./wishes";

/**
 * What the three choices weigh, beside the weights that plans have anyway: with "fewer" each cut weighs twice what it costs
 * when a join needs a touch, with "shorter" fifteen seconds of music do. The numbers are ours.
 */
const weightsOf: Readonly<Record<WhatCounts, Partial<PlanWeights>>> = {
  joins: {},
  fewer: { perCut: 0.3 },
  shorter: { perSecond: 0.02 },
};

const runnersUp = 4;

function isInside({ bars }: Pick<Desk, "bars">, { barIndex, offset }: Position): boolean {
  const length = readQuarters(bars[barIndex]?.length ?? "");
  return length !== null && quartersAsNumber(offset) <= quartersAsNumber(length);
}

/** Places of an address that are places of this piece, the earlier one first. */
export function areEndsHere(desk: Pick<Desk, "bars">, ends: CutEnds): boolean {
  const { from, to } = spanOfEnds(ends);
  return isInside(desk, from) && isInside(desk, to) && comparePositions(from, to) < 0;
}

/** The rehearsal marks that stand in tuttis: those that a cut could take. */
export function lettersAtStake(desk: Pick<Desk, "tuttis" | "strip">): string[] {
  return [...new Set(desk.tuttis.flatMap(({ start, end }) => lettersWithin(desk, { from: start, to: end })))];
}

/** The plan that the wishes ask for. */
export function planQuestion(
  desk: Pick<Desk, "bars" | "cuts" | "needs" | "limitSeconds" | "tuttis" | "strip">,
  wishes: Wishes,
): PlanQuestion {
  const marks = lettersAtStake(desk).filter((mark) => wishes.keepRehearsal.includes(mark));
  const kept = wishes.kept.filter((ends) => areEndsHere(desk, ends));
  return {
    options: {
      limitSeconds: desk.limitSeconds,
      rests: desk.needs,
      keep: kept.map((ends) => ({ ...spanOfEnds(ends), why: nameSpan(desk.bars, ends.from, ends.to) })),
      weights: weightsOf[wishes.counts],
      limitPace: wishes.isCareful ? "slow" : "computed",
      runnersUp,
    },
    agreed: agreedCuts(desk, null),
    filters: {
      resolution: wishes.resolution,
      ...(wishes.keepLastBars !== null && { keepLastBars: wishes.keepLastBars }),
      ...(marks.length > 0 && { keepRehearsal: marks }),
      ...(wishes.keepTheme && { keepTheme: true }),
    },
    allowsRough: wishes.allowsRough,
    without: wishes.leftOut.filter((ends) => areEndsHere(desk, ends)).map(spanOfEnds),
  };
}

/** Why no cut can be looked for at all; null when some can. */
export function findNothingToPlan({ knowsSolo, tuttis }: Pick<Desk, "knowsSolo" | "tuttis">) {
  if (!knowsSolo) return "no-solo" as const;
  return tuttis.length === 0 ? ("no-tuttis" as const) : null;
}
