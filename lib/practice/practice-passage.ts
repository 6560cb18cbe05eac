import type { Metre } from "@/lib/score/bar";
import type { PracticeTempo } from "./practice-tempo";

/** A reason why the piece depends on a passage, with what it was computed from. */
export interface WeightReason {
  readonly kind: "comes again" | "exposed" | "long" | "last page";
  /** The factor it gives, as an exact fraction. */
  readonly factor: { readonly num: number; readonly den: number };
  /** "comes again in bars 40–43, note for note". */
  readonly words: string;
}

/** How much the piece depends on a passage: 1 when nothing speaks for more. */
export interface PassageWeight {
  readonly num: number;
  readonly den: number;
  readonly reasons: readonly WeightReason[];
}

/** A passage that is practised up to tempo. */
export interface PracticePassage {
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  /** "bars 112–115", by the printed numbers. */
  readonly label: string;
  /** Why it is awkward, in words: "leaps in the left hand". */
  readonly why: string;
  /** Performance tempo where it begins, in the beat of its metre. */
  readonly tempo: PracticeTempo;
  /** Of its first bar. */
  readonly metre: Metre;
  /** 0 to 100 at performance tempo, for this pianist. */
  readonly difficulty: number;
  /** Share of the performance tempo up to which every bar is comfortable; 0 when none is. */
  readonly comfortablePace: number;
  readonly weight: PassageWeight;
}
