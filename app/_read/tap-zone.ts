/** What a tap means by where it is: the top edge shows the bar, the left third goes back, the rest goes on. */
export type TapZone = "bar" | "back" | "on";

/** Touch targets at the piano are at least so high and wide, in CSS pixels. */
export const leastTarget = 60;
/** Height of the top edge, as a share of the window's. */
const topShare = 0.08;
const leftShare = 1 / 3;

export interface WindowSize {
  readonly width: number;
  readonly height: number;
}

/** Height of the edge at the top that shows the bar. */
export const topEdge = ({ height }: WindowSize): number =>
  Math.max(leastTarget, Math.round(height * topShare));

/** Width of the part on the left that turns back. */
export const leftPart = ({ width }: WindowSize): number =>
  Math.max(leastTarget, Math.round(width * leftShare));

export function tapZone(x: number, y: number, size: WindowSize): TapZone {
  if (y < topEdge(size)) return "bar";
  return x < leftPart(size) ? "back" : "on";
}
