import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { CutEnd } from "@/app/_ui/score/score-cut";
import { compareBars } from "@/lib/edition/compare-bars";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import { hashTerms } from "@/lib/edition/hash-terms";
import { type PositionTerms, toPosition } from "@/lib/edition/position-terms";
import { quartersAsNumber } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type About, mapOfContent, namesOf } from "./edition-sides";
import type { DifferenceRow, OnScore, SideCut } from "./editions-view";

/** Bars on either side of a difference that are shown with it. */
const nearBars = 12;

/** What the score of a comparison is drawn from. */
export function layOnScore(
  about: About,
  a: EditionContent,
  b: EditionContent,
  rows: readonly DifferenceRow[],
): OnScore {
  const { score } = about.music;
  const isNear = (index: number) =>
    rows.some(({ bars }) => bars && index >= bars.firstBar - nearBars && index <= bars.lastBar + nearBars);
  const stretches = compareBars(score, mapOfContent(about, a), mapOfContent(about, b));
  return {
    stamp: about.desk.musicStamp,
    bars: about.desk.bars.map(({ label, solo }, index) => ({ label, solo: isNear(index) ? solo : "" })),
    earlier: a.cuts.map((cut) => toSideCut(about, score, cut)),
    later: b.cuts.map((cut) => toSideCut(about, score, cut)),
    differing: stretches.flatMap(({ firstIndex, lastIndex, inA, inB }) => {
      if (inA === inB) return [];
      const playedBy = inB === "none" ? "earlier" : inA === "none" ? "later" : "both";
      return [{ firstBar: firstIndex, lastBar: lastIndex, playedBy }];
    }),
  };
}

function toSideCut(about: About, score: Score, cut: CutTerms): SideCut {
  return {
    id: hashTerms(cut),
    from: endOf(score, cut.from),
    to: endOf(score, cut.to),
    name: namesOf(about).cut(toCutSpan(cut)),
    ...barsOfCut(cut),
  };
}

/** First and last bar touched: a cut that goes on at a bar line does not touch the bar after it. */
function barsOfCut({ from, to }: CutTerms): BarSpan {
  const last = to.offset === "0" ? to.barIndex - 1 : to.barIndex;
  return { firstBar: from.barIndex, lastBar: Math.max(from.barIndex, last) };
}

/** How far into its bar a place is, for drawing: 0 at the bar line, 1 at the next. */
function endOf(score: Score, terms: PositionTerms): CutEnd {
  const { barIndex, offset } = toPosition(terms);
  const length = score.bars[barIndex]?.length;
  const part = length && length.num > 0 ? quartersAsNumber(offset) / quartersAsNumber(length) : 0;
  return { barIndex, part: Math.min(1, Math.max(0, part)) };
}
