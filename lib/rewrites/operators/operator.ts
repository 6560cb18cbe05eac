import type { Quarters } from "@/lib/score/quarters";
import type { BarEvent } from "../bar-event";

export type Hand = "left" | "right";

/** What an operator knows of the bar it works on. */
export interface BarToRewrite {
  readonly barIndex: number;
  readonly length: Quarters;
  readonly beat: Quarters;
  /** Of the part: the last staff is the left hand's, any other the right hand's. */
  readonly staffCount: number;
  /** Semitones that each hand can reach, at most. */
  readonly reach: { readonly left: number; readonly right: number };
  /** What the soloist sounds in the bar, as MIDI numbers with their places. */
  readonly solo: readonly { readonly midi: number; readonly offset: Quarters; readonly end: Quarters }[];
  /** Notes from this key upwards lie better under the right hand; null when the staves say it best. */
  readonly rightFromMidi: number | null;
}

/** Whose staff it is; a single staff is the right hand's. */
export const handOfStaff = (staff: number, { staffCount }: BarToRewrite): Hand =>
  staffCount > 1 && staff >= staffCount ? "left" : "right";

/** Those that a hand plays from its own staves. */
export const eventsOfHand = (events: readonly BarEvent[], hand: Hand, bar: BarToRewrite): BarEvent[] =>
  events.filter(({ staff }) => handOfStaff(staff, bar) === hand);

/** One thing that pianists do with notes that do not lie well. */
export interface Operator {
  /** "tremolo for the repeated chords": what was done, for the list and for the other player. */
  readonly words: string;
  /** The bar done so; null when there is nothing of the kind in it. The length of every voice stays. */
  readonly apply: (events: readonly BarEvent[], bar: BarToRewrite) => BarEvent[] | null;
}
