import type { DeskBar } from "@/app/_data/desk/desk";
import type { Position } from "@/lib/score/position";
import { compareQuarters, readQuarters } from "@/lib/score/quarters";

/** The beat that a place lies in: "bar 112 beat 1". */
export function nameBeat(
  bars: readonly Pick<DeskBar, "label" | "beats">[],
  { barIndex, offset }: Position,
): string {
  const { label = "", beats = [] } = bars[barIndex] ?? {};
  const beat = beats.findLastIndex((text) => {
    const at = readQuarters(text);
    return at !== null && compareQuarters(at, offset) <= 0;
  });
  return `bar ${label} beat ${Math.max(0, beat) + 1}`;
}
