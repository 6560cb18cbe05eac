import type { Stretch, StripBar } from "./strip-piece";

/**
 * Where in time the bars on view are. Repeated bars are there more than once: the stretch nearest to `near` is meant.
 *
 * @param firstBar,lastBar bar indices in written order, both on view.
 * @returns null when none of them sounds (all lie outside the performed order).
 */
export function findViewStretch(
  bars: readonly StripBar[],
  firstBar: number,
  lastBar: number,
  near: number,
): Stretch | null {
  const stretches: { from: number; to: number; lastBar: number }[] = [];
  for (const bar of bars) {
    if (bar.barIndex < firstBar || bar.barIndex > lastBar) continue;
    const open = stretches.at(-1);
    if (open && open.to === bar.from && bar.barIndex === open.lastBar + 1) {
      open.to = bar.to;
      open.lastBar = bar.barIndex;
    } else {
      stretches.push({ from: bar.from, to: bar.to, lastBar: bar.barIndex });
    }
  }
  const distance = (stretch: Stretch) =>
    near < stretch.from ? stretch.from - near : Math.max(0, near - stretch.to);
  const best = stretches.sort((a, b) => distance(a) - distance(b) || a.from - b.from)[0];
  return best ? { from: best.from, to: best.to } : null;
}

/** The bar that sounds at `second`; the last one at and after the end. Null only for a piece without bars. */
export function findBarAt<Bar extends Stretch>(bars: readonly Bar[], second: number): Bar | null {
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    const bar = bars[middle];
    if (bar && bar.to <= second) low = middle + 1;
    else high = middle;
  }
  return bars[low] ?? null;
}
