import type { Desk, DeskBar } from "@/app/_data/desk/desk";
import { inkOf } from "@/app/_ui/party";
import type { CutEnd, ScoreCut } from "@/app/_ui/score/score-cut";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import { spanOfDraft } from "./cut-draft";
import type { CutEnds } from "./cut-questions";
import { firstName, personOf } from "./person";

/** How far into its bar a place is, for drawing: 0 at the bar line, 1 at the next. */
function endOf(bars: readonly DeskBar[], { barIndex, offset }: PositionTerms): CutEnd {
  const [at, length] = [readQuarters(offset), readQuarters(bars[barIndex]?.length ?? "")];
  const part = at && length && length.num > 0 ? quartersAsNumber(at) / quartersAsNumber(length) : 0;
  return { barIndex, part: Math.min(1, Math.max(0, part)) };
}

/** A cut that is only looked at, or being drafted, as the score draws it. */
export function scoreLooked(
  bars: readonly DeskBar[],
  ink: ScoreCut["ink"],
  ends: CutEnds,
  says: string,
): ScoreCut {
  return {
    ...{ id: "looked at", number: null, state: "open", ink, says },
    ...spanOfDraft(ends),
    from: endOf(bars, ends.from),
    to: endOf(bars, ends.to),
  };
}

/** The cuts that are drawn on the score, in the order of the page. */
export function scoreCuts(desk: Pick<Desk, "bars" | "cuts" | "people">): ScoreCut[] {
  return desk.cuts
    .flatMap((cut): ScoreCut[] => {
      const { id, number, state, firstBar, lastBar } = cut;
      if ((state !== "open" && state !== "agreed") || cut.weight === null) return [];
      const proposer = personOf(desk, cut.proposedBy);
      const verb = cut.instead ? "counter-proposes" : "proposes";
      return [
        {
          ...{ id, number, state, firstBar, lastBar },
          ink: inkOf(proposer.role),
          says: state === "open" ? `${firstName(proposer)} ${verb}` : null,
          from: endOf(desk.bars, cut.from),
          to: endOf(desk.bars, cut.to),
        },
      ];
    })
    .sort((a, b) => a.firstBar - b.firstBar);
}
