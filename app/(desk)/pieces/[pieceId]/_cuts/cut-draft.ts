import type { Desk, DeskBar, DeskCut } from "@/app/_data/desk/desk";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { PositionTerms } from "@/lib/edition/position-terms";

/** A cut that is being chosen: a new one, or other bars in the place of one that is there. */
export interface CutDraft {
  readonly from: PositionTerms;
  readonly to: PositionTerms;
  /** The cut it would take the place of; null for a new one. */
  readonly replaces: DeskCut | null;
  /** The pencilled cut whose bars are being chosen; none for a new one. */
  readonly pencilId?: string;
}

/** The place after a bar: the next bar line, or the end of the piece. */
export function afterBar(bars: readonly DeskBar[], barIndex: number): PositionTerms {
  const isLast = barIndex >= bars.length - 1;
  return isLast
    ? { barIndex: bars.length - 1, offset: bars[bars.length - 1]?.length ?? "0" }
    : { barIndex: barIndex + 1, offset: "0" };
}

/** A new cut of whole bars. */
export function draftOf(desk: Pick<Desk, "bars">, span: BarSpan): CutDraft {
  return {
    from: { barIndex: span.firstBar, offset: "0" },
    to: afterBar(desk.bars, span.lastBar),
    replaces: null,
  };
}

/** The bars that a draft touches. */
export function spanOfDraft({ from, to }: Pick<CutDraft, "from" | "to">): BarSpan {
  const lastBar = to.offset === "0" ? to.barIndex - 1 : to.barIndex;
  return { firstBar: from.barIndex, lastBar: Math.max(from.barIndex, lastBar) };
}
