import type { RestNeed } from "@/lib/edition/rest-need";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Pace } from "@/lib/score/pace-tempo-map";
import type { KeepSpan, PlanWeights } from "./cut-candidate";

/** What a set of cuts has to do. */
export interface PlanOptions {
  /** The clock's limit; null when there is none. */
  readonly limitSeconds: number | null;
  readonly rests?: readonly RestNeed[];
  readonly keep?: readonly KeepSpan[];
  /**
   * Cuts that both have agreed: every set has them. They cost nothing, the limit and the rests are judged with them, and
   * what they take from a rest is not held against other cuts. Candidates that overlap or touch them are refused.
   */
  readonly agreed?: readonly CutSpan[];
  readonly weights?: Partial<PlanWeights>;
  /** The end of the range at which the limit has to be met; "slow" is the careful one. By the numbers unless told. */
  readonly limitPace?: Pace;
  /** The end of the range at which the rests have to suffice; "fast" is the careful one. By the numbers unless told. */
  readonly restPace?: Pace;
  /** How many other sets that fit are wanted; 3 unless told. */
  readonly runnersUp?: number;
}
