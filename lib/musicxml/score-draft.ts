import { type BarJumps, type BarRepeats, type Metre, plainRepeats } from "@/lib/score/bar";
import type { Direction } from "@/lib/score/direction";
import type { Note, Rest } from "@/lib/score/note";
import type { ClefChange, KeyChange, TranspositionChange } from "@/lib/score/part";
import { noQuarters, type Quarters } from "@/lib/score/quarters";
import type { PartIdentity } from "./part-list";

/**
 * What a score is while its measures are read: parts come one after the other, so the length of a bar, and with it
 * every onset, is known only at the end. Until then `onset` counts from the start of the bar.
 */
export type Draft<T> = { -readonly [K in keyof T]: T[K] };

export type DirectionDraft = Draft<Direction>;

/** A bar's own rest, whose length is the bar's. */
export interface WholeBarRest {
  readonly rest: Draft<Rest>;
  /** As the file has it; null when it gives none. */
  readonly written: Quarters | null;
  readonly partIndex: number;
}

export interface JumpSign {
  readonly kind: keyof BarJumps;
  /** What pairs the sign with its counterpart. */
  readonly name: string;
  readonly offset: Quarters;
  /** A `sound` element is meant for the order of playing; words and signs are only printed. */
  readonly source: "sound" | "words" | "sign";
}

/** A bar as all parts together tell it. */
export interface BarDraft {
  /** Null when the first part that has the bar gives no number. */
  label: string | null;
  isImplicit: boolean;
  /** What is printed at this bar. */
  metre: Metre | null;
  /** The furthest time that notes and rests reach, the bar's own rests left out. */
  reached: Quarters;
  /** The same for each part, by index. */
  reachedInParts: Quarters[];
  wholeBarRests: WholeBarRest[];
  repeats: Draft<BarRepeats>;
  jumps: JumpSign[];
  /** A double or final bar line, which ends a phrase. */
  endsWithDoubleLine: boolean;
}

export interface RepeatedBars {
  readonly firstBar: number;
  /** First bar after them; null while none is seen. */
  endBar: number | null;
  /** How many bars are repeated at a time. */
  readonly pattern: number;
  /** Null: all staves. */
  readonly staff: number | null;
}

export interface PartDraft {
  identity: PartIdentity;
  staffCount: number;
  hasLyrics: boolean;
  /** By bar, as written. */
  notes: Draft<Note>[][];
  rests: Draft<Rest>[][];
  directions: DirectionDraft[];
  clefs: Draft<ClefChange>[];
  keys: Draft<KeyChange>[];
  transpositions: Draft<TranspositionChange>[];
  repeatedBars: RepeatedBars[];
}

/** A tempo as printed or encoded; `modulation` is new tempo ÷ old tempo. */
export interface TempoDraft {
  readonly barIndex: number;
  onset: Quarters;
  words: string | null;
  quartersPerMinute: number | null;
  readonly modulation: number | null;
  source: "metronome" | "sound" | "words";
  readonly partName: string;
}

export class ScoreDraft {
  readonly bars: BarDraft[] = [];
  readonly parts: PartDraft[] = [];
  readonly tempi: TempoDraft[] = [];

  /** Bars that some part has a measure for. A sign on the last bar line may have made one more. */
  barCount = 0;

  /** The bar of that index, made when no part has told of it yet. */
  barAt(index: number): BarDraft {
    for (let next = this.bars.length; next <= index; next += 1) this.bars.push(emptyBar());
    return this.bars[index] as BarDraft; // the loop has just made it
  }
}

function emptyBar(): BarDraft {
  return {
    label: null,
    isImplicit: false,
    metre: null,
    reached: noQuarters,
    reachedInParts: [],
    wholeBarRests: [],
    repeats: { ...plainRepeats },
    jumps: [],
    endsWithDoubleLine: false,
  };
}
