import type { CutEnds } from "../../_cuts/cut-questions";

/** What counts most when sets of cuts are weighed against each other. */
export type WhatCounts = "joins" | "fewer" | "shorter";

/** What the players want of a plan. It stands in the address, so that both can look at the same. */
export interface Wishes {
  /** Cuts from bar line to bar line only, or from beat to beat as well. */
  readonly resolution: "bars" | "beats";
  /** Whole bars before each entry that stay; null for what is usual. */
  readonly keepLastBars: number | null;
  /** Rehearsal marks that stay, as printed. */
  readonly keepRehearsal: readonly string[];
  readonly keepTheme: boolean;
  readonly allowsRough: boolean;
  readonly counts: WhatCounts;
  /** The slow end of the range has to meet the limit. */
  readonly isCareful: boolean;
  /** Cuts that were left out of the plan. */
  readonly leftOut: readonly CutEnds[];
  /** Bars that have to be played. */
  readonly kept: readonly CutEnds[];
}

export const noWishes: Wishes = {
  ...{ resolution: "bars", keepLastBars: null, keepRehearsal: [], keepTheme: false },
  ...{ allowsRough: false, counts: "joins", isCareful: false, leftOut: [], kept: [] },
};

/** Which set is looked at: the best for the limit, one of a length, or another that fits. */
export type SetChoice =
  | { readonly kind: "best" }
  /** @property saves seconds beside what is agreed; the first set that saves as much is meant. */
  | { readonly kind: "length"; readonly saves: number }
  /** @property index in the list of runners-up. */
  | { readonly kind: "other"; readonly index: number };

/** All that the screen of the plan is at. */
export interface PlanState {
  readonly wishes: Wishes;
  readonly choice: SetChoice;
}

/** Most that a list in the address holds: what is beyond is left out. */
export const mostListed = 24;
/** The most bars before an entry that can be kept by a wish. The choice is ours. */
export const mostLastBars = 32;
