import type { Part } from "./part";
import type { PerformedOrder } from "./performed-order";
import { findPlayingSpans } from "./playing-spans";
import { compareQuarters, noQuarters, type Quarters } from "./quarters";
import type { Score } from "./score";

/** Performed time in which a part is silent, end exclusive, and its notes on either side. */
export interface SilentSpan {
  readonly from: Quarters;
  readonly to: Quarters;
  /** Null where the piece begins in silence. */
  readonly lastNoteId: string | null;
  /** Null where it ends in silence. */
  readonly nextNoteId: string | null;
}

/** Every silence of a part, however short, in performed order: the gaps between its playing spans. */
export function findSilentSpans(score: Score, order: PerformedOrder, part: Part): SilentSpan[] {
  const spans: SilentSpan[] = [];
  let from = noQuarters;
  let lastNoteId: string | null = null;
  for (const played of findPlayingSpans(score, order, part)) {
    spans.push({ from, to: played.performedFrom, lastNoteId, nextNoteId: played.firstNoteId });
    from = played.performedTo;
    lastNoteId = played.lastNoteId;
  }
  spans.push({ from, to: order.length, lastNoteId, nextNoteId: null });
  return spans.filter((span) => compareQuarters(span.from, span.to) < 0);
}
