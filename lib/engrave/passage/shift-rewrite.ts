import type { RewriteTerms } from "@/lib/edition/rewrite-terms";

/** A rewrite in a score that begins at another bar. @param bars may be negative. */
export function shiftRewrite(rewrite: RewriteTerms, bars: number): RewriteTerms {
  const shift = <P extends { readonly barIndex: number }>(place: P): P => ({
    ...place,
    barIndex: place.barIndex + bars,
  });
  return {
    ...rewrite,
    from: shift(rewrite.from),
    to: shift(rewrite.to),
    events: rewrite.events.map((event) => ({ ...event, at: shift(event.at) })),
  };
}
