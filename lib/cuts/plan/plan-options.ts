import type { RestNeed } from "@/lib/edition/rest-need";
import type { Pace } from "@/lib/score/pace-tempo-map";
import type { KeepSpan, PlanWeights } from "./cut-candidate";

/** What a set of cuts has to do. */
export interface PlanOptions {
  /** The clock's limit; null when there is none. */
  readonly limitSeconds: number | null;
  readonly rests?: readonly RestNeed[];
  readonly keep?: readonly KeepSpan[];
  readonly weights?: Partial<PlanWeights>;
  /** The end of the range at which the limit has to be met; "slow" is the careful one. By the numbers unless told. */
  readonly limitPace?: Pace;
  /** The end of the range at which the rests have to suffice; "fast" is the careful one. By the numbers unless told. */
  readonly restPace?: Pace;
  /** How many other sets that fit are wanted; 3 unless told. */
  readonly runnersUp?: number;
}
