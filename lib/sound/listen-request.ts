import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";

/** How a join is heard: across the cut, straight through as written, or the one and then the other. */
export type JoinHearing = "with-the-cut" | "without-it" | "in-turn";

/**
 * What is to be heard. Positions of the written order; `cuts` are those that are made, they may touch or overlap. Plain
 * data: it is sent to a worker.
 */
export type ListenRequest = WhatIsHeard & {
  /** Played instead of what is printed in their bars; of two that overlap the last. None when it is not said. */
  readonly rewrites?: readonly RewriteTerms[];
};

type WhatIsHeard =
  | {
      readonly kind: "span";
      readonly from: Position;
      /** Exclusive. */
      readonly to: Position;
      readonly cuts: readonly CutSpan[];
    }
  | {
      readonly kind: "join";
      readonly cut: CutSpan;
      /** The other cuts, without this one. */
      readonly cuts: readonly CutSpan[];
      /** Whole bars before the cut and after it; a bar that the cut divides comes on top. */
      readonly barsBefore: number;
      readonly barsAfter: number;
      readonly how: JoinHearing;
    }
  | {
      readonly kind: "piece";
      readonly cuts: readonly CutSpan[];
      /** Where it starts, and in which round of a repeat (from 1); null for the beginning. */
      readonly from: (Position & { readonly pass: number }) | null;
    };

/** Bars on each side when a join is heard: a phrase on either side is enough to judge it by. The choice is ours. */
export const barsAroundJoin = 4;
