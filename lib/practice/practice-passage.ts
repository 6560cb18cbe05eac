import type { Metre } from "@/lib/score/bar";
import type { Position } from "@/lib/score/position";
import type { PracticeTempo } from "./practice-tempo";
import type { Ratio } from "./ratio";

/** A reason why the piece depends on a passage, with what it was computed from. */
export interface WeightReason {
  readonly kind: "comes again" | "exposed" | "long" | "last page";
  /** The factor that it gives. */
  readonly factor: Ratio;
  /** "it comes again note for note in bars 40–43". */
  readonly words: string;
}

/** How much the piece depends on a passage. */
export interface PassageWeight {
  /** All factors together; 1 when there is no reason. */
  readonly factor: Ratio;
  readonly reasons: readonly WeightReason[];
}

/** Bars by index, both included. */
export interface PassageBars {
  readonly fromBar: number;
  readonly toBar: number;
}

/** A passage that is practised up to tempo. */
export interface PracticePassage extends PassageBars {
  /** "bars 112–115", by the printed numbers. */
  readonly label: string;
  /** Where it ends: the end of its last bar. */
  readonly end: Position;
  /** Why it is awkward, in a sentence. */
  readonly why: string;
  /** Performance tempo, the fastest of its bars, in the beat of its metre. */
  readonly tempo: PracticeTempo;
  /** Of its first bar. */
  readonly metre: Metre;
  /** 0 to 100 at performance tempo, for this pianist. */
  readonly difficulty: number;
  /** Share of the performance tempo up to which every bar is comfortable; 0 when none is. */
  readonly comfortablePace: number;
  readonly weight: PassageWeight;
}

/** What one passage is called among the others of a piece: its bars. */
export function passageKey({ fromBar, toBar }: PassageBars): string {
  return `${fromBar}-${toBar}`;
}
