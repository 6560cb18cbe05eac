import { compareQuarters, type Quarters } from "./quarters";

/** A place in the written order: a bar, found by index and never by its printed label, and an exact offset from its start. */
export interface Position {
  readonly barIndex: number;
  readonly offset: Quarters;
}

/** Written order: negative, zero or positive, as `a` is before, at or after `b`. */
export function comparePositions(a: Position, b: Position): number {
  return a.barIndex - b.barIndex || compareQuarters(a.offset, b.offset);
}
