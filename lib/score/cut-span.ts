import { comparePositions, type Position } from "./position";

/** Play up to `from`, exclusive; go on at `to`. Positions of the written order. */
export interface CutSpan {
  readonly from: Position;
  readonly to: Position;
}

/** Whether two cuts leave out the same, place by place. */
export function isSameSpan(a: CutSpan, b: CutSpan): boolean {
  return comparePositions(a.from, b.from) === 0 && comparePositions(a.to, b.to) === 0;
}
