import { costUnit } from "@/lib/cuts/plan/cut-candidate";
import { leaveOut } from "@/lib/score/leave-out";
import { readMilliseconds, sumPerformed } from "@/lib/score/millisecond-clock";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { compareQuarters, noQuarters } from "@/lib/score/quarters";
import { cutRests, findRestsAt, measureRest, type RestReading, readRests } from "@/lib/score/rest-left";
import { partsOfABar } from "@/lib/score/silent-bars";
import { type PlanCase, spanOf } from "./random-plan";

export interface TriedSet {
  readonly cuts: readonly number[];
  readonly savedMilliseconds: number;
  readonly cost: number;
}

/** Something is played between any two cuts, agreed ones included, and nothing of what is kept is taken. */
function canBeMade({ score, candidates, options }: PlanCase, cuts: readonly number[]): boolean {
  const spans = cuts.map((index) => spanOf(score, candidates[index]!));
  const sorted = spans.toSorted((a, b) => compareQuarters(a.from, b.from));
  const areApart = sorted.every((span, index) => {
    const next = sorted[index + 1];
    return !next || compareQuarters(span.to, next.from) < 0;
  });
  const agreed = (options.agreed ?? []).map((cut) => spanOf(score, cut));
  const meetsAgreed = spans.some((span) =>
    agreed.some(
      (other) => compareQuarters(span.from, other.to) <= 0 && compareQuarters(other.from, span.to) <= 0,
    ),
  );
  const keeps = (options.keep ?? []).map((keep) => spanOf(score, keep));
  const takesKept = spans.some((span) =>
    keeps.some((keep) => compareQuarters(span.from, keep.to) < 0 && compareQuarters(keep.from, span.to) < 0),
  );
  return areApart && !takesKept && !meetsAgreed;
}

/**
 * Every rest that is needed, each time it is played, lasts as long as needed, or as without cuts if that is less: with none
 * but those that are agreed.
 */
function keepsRests(
  { candidates, options }: PlanCase,
  reading: RestReading,
  cuts: readonly number[],
): boolean {
  const agreed = options.agreed ?? [];
  const cut = cutRests(reading, [...cuts.map((index) => candidates[index]!), ...agreed]);
  const whole = cutRests(reading, agreed);
  const holding = (options.rests ?? []).filter((need) => need.releasedBy === null);
  return holding.every((need) =>
    findRestsAt(reading, need).every((silence) => {
      const [before, after] = [measureRest(reading, whole, silence), measureRest(reading, cut, silence)];
      return "seconds" in need.needs
        ? after.milliseconds >= Math.min(Math.round(1000 * need.needs.seconds), before.milliseconds)
        : after.barParts >= Math.min(partsOfABar * need.needs.bars, before.barParts);
    }),
  );
}

/** Every set of candidates that can be made and keeps the rests: made, played through and measured one by one. */
export function tryAllSets(plan: PlanCase): TriedSet[] {
  const { score, map, candidates } = plan;
  const reading = readRests(score, map);
  const clock = readMilliseconds(map);
  const lasts = (order: PerformedOrder) =>
    sumPerformed(score, order, clock.at, { from: noQuarters, to: order.length });
  const sets: TriedSet[] = [];
  for (let bits = 0; bits < 2 ** candidates.length; bits += 1) {
    const cuts = candidates.flatMap((_, index) => ((bits >> index) & 1 ? [index] : []));
    if (!canBeMade(plan, cuts) || !keepsRests(plan, reading, cuts)) continue;
    const spans = [...cuts.map((index) => candidates[index]!), ...(plan.options.agreed ?? [])];
    const played = leaveOut(score, reading.order, spans);
    const savedMilliseconds = lasts(reading.order) - lasts(played);
    const cost = cuts.reduce((sum, index) => sum + Math.round(costUnit * candidates[index]!.cost), 0);
    sets.push({ cuts, savedMilliseconds, cost });
  }
  return sets;
}

/** Saved and cost of the sets that nothing beats, from the least saved to the most. */
export function findFront(sets: readonly TriedSet[]): [number, number][] {
  const sorted = sets.toSorted((a, b) => b.savedMilliseconds - a.savedMilliseconds || a.cost - b.cost);
  const front: [number, number][] = [];
  for (const { savedMilliseconds, cost } of sorted) {
    const last = front.at(-1);
    if (!last || cost < last[1]) front.push([savedMilliseconds, cost]);
  }
  return front.reverse();
}
