import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { readQuarters } from "@/lib/score/quarters";
import { type BarEvent, inOrder } from "./bar-event";

/** First and last bar of a rewrite by index, both included. */
export function barSpanOf({ from, to }: RewriteTerms): { readonly fromBar: number; readonly toBar: number } {
  const end = toPosition(to);
  const toBar = end.offset.num > 0 ? end.barIndex : end.barIndex - 1;
  return { fromBar: from.barIndex, toBar };
}

/**
 * The bars of a rewrite to compute with, from its first to its last: what `toRewriteTerms` was made from.
 *
 * @throws RangeError if the terms did not pass `rewriteTermsSchema`.
 */
export function barsOfTerms(terms: RewriteTerms): BarEvent[][] {
  const { fromBar, toBar } = barSpanOf(terms);
  const bars = Array.from({ length: Math.max(0, toBar - fromBar + 1) }, (): BarEvent[] => []);
  for (const { at, lasts, ...event } of terms.events) {
    const length = readQuarters(lasts);
    if (length === null) throw new RangeError(`Not a length in quarter notes: ${lasts}`);
    bars[at.barIndex - fromBar]?.push({ ...event, offset: toPosition(at).offset, length });
  }
  return bars.map(inOrder);
}
