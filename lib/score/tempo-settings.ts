import type { Position } from "./position";

/** What the duo decided about time; positions of the written order. */
export interface TempoSettings {
  /** The duo's own tempi: each holds from its place to the next printed or own tempo. */
  readonly tempi: readonly { readonly at: Position; readonly quartersPerMinute: number }[];
  /** The tempo at the end of a ritardando as a share of the tempo before it; an accelerando reaches the inverse. */
  readonly ritardandoTo: number;
  /** How many times its written length a note under a fermata is held. */
  readonly fermataFactor: number;
  /** The duo's own timing of a section as played, repeats inside it included: it scales that span. */
  readonly timings: readonly { readonly from: Position; readonly to: Position; readonly seconds: number }[];
}

/**
 * Source: a ritardando to three quarters of the tempo and a fermata of 1.5 to 2 times the written length are common
 * practice; the middle of that range is taken.
 */
export const defaultTempoSettings: TempoSettings = {
  tempi: [],
  ritardandoTo: 0.75,
  fermataFactor: 1.75,
  timings: [],
};

/** A ritardando or accelerando lasts until the next tempo, and never longer than this. Source: common practice. */
export const longestRampBars = 4;

/** Quarters a minute where a score says nothing at all: a moderato. Source: common practice. */
export const unmarkedQuartersPerMinute = { slowest: 60, fastest: 144, quartersPerMinute: 100 };
