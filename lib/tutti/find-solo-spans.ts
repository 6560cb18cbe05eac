import { findSoloPart } from "@/lib/score/find-part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { findPlayingSpans, type PlayingSpan } from "@/lib/score/playing-spans";
import type { Score } from "@/lib/score/score";

/** Where the soloist plays, in performed order, end exclusive; empty without a solo part. Every rest is a gap. */
export function findSoloSpans(score: Score, order: PerformedOrder): PlayingSpan[] {
  const solo = findSoloPart(score);
  return solo ? findPlayingSpans(score, order, solo) : [];
}
