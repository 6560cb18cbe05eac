import type { Desk } from "@/app/_data/desk/desk";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";
import type { CutQuestion } from "@/lib/study/judge-cut";

/** Two ends as forms and proposals have them. */
export interface CutEnds {
  readonly from: PositionTerms;
  readonly to: PositionTerms;
}

export function spanOfEnds({ from, to }: CutEnds): CutSpan {
  return { from: toPosition(from), to: toPosition(to) };
}

export function endsOfSpan({ from, to }: CutSpan): CutEnds {
  return { from: toPositionTerms(from), to: toPositionTerms(to) };
}

/** The agreed cuts of this file, without those of a number: an agreed cut gives way to what goes under its number. */
export function agreedCuts({ cuts }: Pick<Desk, "cuts">, without: number | null): CutSpan[] {
  return cuts
    .filter(({ state, number, isStale }) => state === "agreed" && !isStale && number !== without)
    .map(spanOfEnds);
}

/** Whether an agreed cut that has some of the same bars forbids a cut, or is thought away. */
export type OverAgreed = "is not asked" | "gives way";

/** What is asked about a cut; null while its ends stand the wrong way round, or in an agreed cut that does not give way. */
export function questionOf(
  desk: Pick<Desk, "cuts" | "needs">,
  ends: CutEnds,
  number: number | null,
  overAgreed: OverAgreed = "is not asked",
): CutQuestion | null {
  const cut = spanOfEnds(ends);
  if (comparePositions(cut.from, cut.to) >= 0) return null;
  const agreed = agreedCuts(desk, number);
  const apart = agreed.filter((other) => findOverlap([other], cut) === null);
  if (apart.length < agreed.length && overAgreed === "is not asked") return null;
  return { cut, agreed: apart, needs: desk.needs };
}

/** How long whole bars last, the first time each is played, in seconds. */
function lengthOfBars({ strip }: Pick<Desk, "strip">, first: number, last: number): number {
  const seen = new Set<number>();
  let sum = 0;
  for (const { barIndex, from, to } of strip.bars) {
    if (barIndex < first || barIndex > last || seen.has(barIndex)) continue;
    seen.add(barIndex);
    sum += to - from;
  }
  return sum;
}

/** About how long a join is heard, with so many bars on each side, in seconds; by whole bars. */
export function joinSeconds(desk: Pick<Desk, "strip">, { from, to }: CutSpan, bars: number): number {
  return (
    lengthOfBars(desk, from.barIndex - bars, from.barIndex - 1) +
    lengthOfBars(desk, to.barIndex, to.barIndex + bars - 1)
  );
}
