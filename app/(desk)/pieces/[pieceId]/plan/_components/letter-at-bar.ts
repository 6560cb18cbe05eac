import type { StripPiece } from "@/app/_ui/strip/strip-piece";

/** The rehearsal mark over a bar, by the moment at which it first sounds; null when none stands there. */
export function letterAtBar(
  { bars, letters }: Pick<StripPiece, "bars" | "letters">,
  barIndex: number,
): string | null {
  const bar = bars.find((one) => one.barIndex === barIndex);
  return letters.find(({ at }) => bar && Math.abs(at - bar.from) < 0.01)?.text ?? null;
}
