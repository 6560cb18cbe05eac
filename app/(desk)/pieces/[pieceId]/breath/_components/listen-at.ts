import type { StripPiece } from "@/app/_ui/strip/strip-piece";
import { findBarAt } from "@/app/_ui/strip/view-frame";
import type { CutSpan } from "@/lib/score/cut-span";
import { noQuarters } from "@/lib/score/quarters";
import type { ListenRequest } from "@/lib/sound/listen-request";

/**
 * The piece with its cuts, from the bar one is at, in the round of a repeat one is in.
 *
 * @param second of the piece as written.
 */
export function listenAt(
  { bars }: Pick<StripPiece, "bars">,
  cuts: readonly CutSpan[],
  second: number,
): ListenRequest {
  const here = findBarAt(bars, second + 0.001);
  if (here === null || here === bars[0]) return { kind: "piece", cuts, from: null };
  const pass = bars.filter(({ barIndex, from }) => barIndex === here.barIndex && from <= here.from).length;
  return { kind: "piece", cuts, from: { barIndex: here.barIndex, offset: noQuarters, pass } };
}
