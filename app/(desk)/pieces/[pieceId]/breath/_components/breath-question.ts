import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { BreathDesk, BreathNeed } from "@/app/_data/desk/read-breath";
import { toPosition } from "@/lib/edition/position-terms";
import type { RestNeed } from "@/lib/edition/rest-need";
import type { Breath } from "@/lib/room/breath";
import type { CutSpan } from "@/lib/score/cut-span";
import { compareQuarters, readQuarters } from "@/lib/score/quarters";
import type { BreathQuestion } from "@/lib/study/breathe";

/** Rests shorter than this are not listed, in seconds: nobody counts on them. The choice is ours. */
const shortestRest = 4;

/** Cuts that are drawn: agreed, or open to answer. */
export function drawnCuts({ cuts }: Pick<Desk, "cuts">, state: "agreed" | "open"): DeskCut[] {
  return cuts.filter((cut) => cut.state === state && cut.weight !== null);
}

export function spanOfCut({ from, to }: Pick<DeskCut, "from" | "to">): CutSpan {
  return { from: toPosition(from), to: toPosition(to) };
}

/** The agreed cuts with some open ones; an agreed cut gives way to an open one of its own number. */
export function cutsWith(desk: Pick<Desk, "cuts">, open: readonly DeskCut[]): DeskCut[] {
  const replaced = new Set(open.map(({ number }) => number));
  return [...drawnCuts(desk, "agreed").filter(({ number }) => !replaced.has(number)), ...open];
}

/** Needs that can be looked for: neither taken off nor noted on another file. */
export function livingNeeds(needs: readonly BreathNeed[]): BreathNeed[] {
  return needs.filter(({ isRemoved, isStale }) => !isRemoved && !isStale);
}

function toRestNeed({ id, from, to, needs, why, releasedBy }: BreathNeed): RestNeed {
  return { id, from: toPosition(from), to: toPosition(to), needs, why, releasedBy };
}

/** What the study is asked, with these cuts made. Breaths that lie on no bar of this file are left out. */
export function askBreath(
  { bars }: Pick<Desk, "bars">,
  breath: Pick<BreathDesk, "needs" | "preferences">,
  breaths: readonly Breath[],
  cuts: readonly DeskCut[],
): BreathQuestion {
  const isInPiece = ({ at }: Breath) => {
    const length = readQuarters(bars[at.barIndex]?.length ?? "");
    return length !== null && compareQuarters(at.offset, length) <= 0;
  };
  return {
    cuts: cuts.map(spanOfCut),
    needs: livingNeeds(breath.needs).map(toRestNeed),
    marks: breaths.filter(isInPiece).map(({ at }) => at),
    preferences: breath.preferences ?? {},
    shortestRest,
  };
}
