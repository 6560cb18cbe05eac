/** Bars being marked on the score: where the marking began and where it has come to, by index. */
export interface Marking {
  readonly anchor: number;
  readonly head: number;
}

/** Bars by index, both ends included. */
export interface BarSpan {
  readonly firstBar: number;
  readonly lastBar: number;
}

/**
 * One tap on a bar: the first marks it, the second marks up to there, a third begins again. The only marked bar tapped
 * again is let go.
 *
 * @param isExtending with Shift the marking always reaches from where it began to the bar.
 */
export function tapBar(marking: Marking | null, bar: number, isExtending = false): Marking | null {
  if (marking === null) return { anchor: bar, head: bar };
  if (isExtending) return { anchor: marking.anchor, head: bar };
  const isOneBar = marking.anchor === marking.head;
  if (isOneBar && bar === marking.anchor) return null;
  return isOneBar ? { anchor: marking.anchor, head: bar } : { anchor: bar, head: bar };
}

export function spanOf(marking: Marking): BarSpan {
  return {
    firstBar: Math.min(marking.anchor, marking.head),
    lastBar: Math.max(marking.anchor, marking.head),
  };
}
