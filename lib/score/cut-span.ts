import type { Position } from "./position";

/** Play up to `from`, exclusive; go on at `to`. Positions of the written order. */
export interface CutSpan {
  readonly from: Position;
  readonly to: Position;
}
