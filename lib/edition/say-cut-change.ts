import { isEqualQuarters } from "@/lib/score/quarters";
import { sayClock } from "@/lib/score/say-clock";
import { sayNumber } from "@/lib/score/say-number";
import { type CutTerms, toCutSpan } from "./cut-terms";
import type { PlaceNames } from "./edition-difference";
import type { CutPair } from "./pair-cuts";

/**
 * What became of a cut, as musicians say it: "Cut 2 moved two bars later and saves 0:08 less: bars 9–12 became bars
 * 11–14."
 *
 * @param saved by a cut, in seconds.
 */
export function sayCutChange(
  { before, after }: CutPair,
  names: PlaceNames,
  saved: (cut: CutTerms) => number,
): string {
  const place = (cut: CutTerms) => names.cut(toCutSpan(cut));
  const title = (cut: CutTerms) => names.cutTitle?.(cut) ?? "Cut";
  if (before && after) {
    const where = `${place(before)} became ${place(after)}`;
    return `${title(before)} ${sayMove(before, after)} ${saySaving(saved(after) - saved(before))}: ${where}.`;
  }
  if (after) return `${title(after)} added: ${place(after)}, ${sayClock(saved(after))} shorter.`;
  if (before)
    return `${title(before)} opened: ${place(before)} are played again, ${sayClock(saved(before))} longer.`;
  throw new RangeError("A change of a cut without a cut");
}

function saySaving(more: number): string {
  if (sayClock(more) === sayClock(0)) return "and saves as much as before";
  return `and saves ${sayClock(Math.abs(more))} ${more > 0 ? "more" : "less"}`;
}

function sayMove(before: CutTerms, after: CutTerms): string {
  const [from, to] = [shiftOf(before.from, after.from), shiftOf(before.to, after.to)];
  if (from === null || to === null) return "moved";
  if (from === to) return `moved ${sayShift(from)}`;
  if (from === 0) return `ends ${sayShift(to)}`;
  if (to === 0) return `begins ${sayShift(from)}`;
  return `begins ${sayShift(from)}, ends ${sayShift(to)}`;
}

/** In printed bars; null when the place inside the bar is another. */
function shiftOf(before: CutTerms["from"], after: CutTerms["from"]): number | null {
  const { from, to } = toCutSpan({ from: before, to: after });
  return isEqualQuarters(from.offset, to.offset) ? to.barIndex - from.barIndex : null;
}

function sayShift(bars: number): string {
  const count = Math.abs(bars);
  return `${sayNumber(count, 10)} ${count === 1 ? "bar" : "bars"} ${bars > 0 ? "later" : "earlier"}`;
}
