import type { Position } from "./position";
import type { Quarters } from "./quarters";

/** Where a tempo comes from: the page, a default of ours, the duo's number, or the duo's stop-watch. */
export type TempoBasis = "printed" | "assumed" | "own" | "timed";

/** A stretch of written time with one tempo, or with one that changes evenly from start to end. */
export interface TempoSegment {
  readonly from: Quarters;
  readonly to: Quarters;
  readonly startQuartersPerMinute: number;
  readonly endQuartersPerMinute: number;
  readonly basis: TempoBasis;
  /** How much slower and faster the same words are taken, as shares of the tempo; 1 unless it is assumed. */
  readonly slowest: number;
  readonly fastest: number;
}

/** A number that is not on the page, and which page sign it stands for. */
export interface TempoAssumption {
  readonly kind: "no-tempo" | "tempo-word" | "tempo-change" | "ramp" | "ramp-ends" | "fermata";
  readonly position: Position;
  readonly barLabel: string;
  readonly printed: string | null;
  /** Quarters a minute; for a ramp the share of the tempo that is reached, for a fermata the factor. */
  readonly assumed: number;
  readonly sentence: string;
}

/** Tempo over the written time of a piece: its segments follow one another from 0 to the end. */
export interface TempoMap {
  readonly segments: readonly TempoSegment[];
  readonly assumptions: readonly TempoAssumption[];
}
