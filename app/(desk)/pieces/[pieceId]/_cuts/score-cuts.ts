import type { Desk, DeskBar } from "@/app/_data/desk/desk";
import { inkOf } from "@/app/_ui/party";
import type { CutEnd, ScoreCut } from "@/app/_ui/score/score-cut";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import { firstName, personOf } from "../_components/person";
import { spanOfDraft } from "./cut-draft";
import type { CutEnds } from "./cut-questions";

/** How far into its bar a place is, for drawing: 0 at the bar line, 1 at the next. */
export function endOf(bars: readonly DeskBar[], { barIndex, offset }: PositionTerms): CutEnd {
  const [at, length] = [readQuarters(offset), readQuarters(bars[barIndex]?.length ?? "")];
  const part = at && length && length.num > 0 ? quartersAsNumber(at) / quartersAsNumber(length) : 0;
  return { barIndex, part: Math.min(1, Math.max(0, part)) };
}

/**
 * A cut that is only looked at, or being drafted, as the score draws it. Null where one that is drawn anyway has the same
 * bars; without words where one begins at the same place and has its own there.
 */
export function scoreLooked(
  desk: Pick<Desk, "bars" | "cuts" | "people">,
  ink: ScoreCut["ink"],
  ends: CutEnds,
  says: string,
): ScoreCut | null {
  const [from, to] = [endOf(desk.bars, ends.from), endOf(desk.bars, ends.to)];
  const isAt = (one: CutEnd, other: CutEnd) => one.barIndex === other.barIndex && one.part === other.part;
  const drawn = scoreCuts(desk).filter((cut) => isAt(cut.from, from));
  if (drawn.some((cut) => isAt(cut.to, to))) return null;
  return {
    ...{ id: "looked at", number: null, state: "open", ink, says: drawn.length > 0 ? null : says, from, to },
    ...spanOfDraft(ends),
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
