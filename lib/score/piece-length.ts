import { addQuarters, noQuarters, type Quarters } from "./quarters";
import type { Score } from "./score";

/** Written time of the end of the last bar; 0 for a piece without bars. */
export function pieceLength(score: Score): Quarters {
  const last = score.bars.at(-1);
  return last ? addQuarters(last.start, last.length) : noQuarters;
}
