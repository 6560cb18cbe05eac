import type { KeyboardEvent } from "react";
import type { StripBar, StripPiece } from "@/app/_ui/strip/strip-piece";
import { findBarAt } from "@/app/_ui/strip/view-frame";

/** Where a key takes the reader along the strip: arrows by bar, with Shift by rehearsal letter; null for another key. */
export function stripKey(
  event: Pick<KeyboardEvent, "key" | "shiftKey" | "altKey" | "ctrlKey" | "metaKey">,
  { bars, letters }: Pick<StripPiece, "bars" | "letters">,
  second: number,
): StripBar | null {
  if (event.altKey || event.ctrlKey || event.metaKey) return null;
  const direction = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
  if (direction === 0) return null;
  if (event.shiftKey) {
    const next =
      direction === 1
        ? letters.find(({ at }) => at > second + 0.01)
        : letters.findLast(({ at }) => at < second - 0.01);
    return next ? findBarAt(bars, next.at + 0.001) : null;
  }
  const here = findBarAt(bars, second + 0.001);
  return here === null ? null : (bars[bars.indexOf(here) + direction] ?? null);
}
