import type { PositionTerms } from "@/lib/edition/position-terms";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { noQuarters, writeQuarters } from "@/lib/score/quarters";
import { type BarEvent, inOrder } from "./bar-event";

/** Whole bars written otherwise, as they are stored and hashed; at first as an ossia. */
export function toRewriteTerms({
  sourceHash,
  partId,
  fromBar,
  to,
  bars,
  words,
}: {
  readonly sourceHash: string;
  readonly partId: string;
  readonly fromBar: number;
  /** The end of the last bar. */
  readonly to: PositionTerms;
  readonly bars: readonly (readonly BarEvent[])[];
  readonly words: string;
}): RewriteTerms {
  return {
    ...{ kind: "rewrite", sourceHash, partId, words, shown: "ossia" },
    from: toPositionTerms({ barIndex: fromBar, offset: noQuarters }),
    to,
    events: bars.flatMap((events, index) =>
      inOrder(events).map(({ offset, length, ...event }) => ({
        at: toPositionTerms({ barIndex: fromBar + index, offset }),
        lasts: writeQuarters(length),
        ...event,
      })),
    ),
  };
}
