import type { Direction } from "./direction";
import type { Note, Rest } from "./note";
import type { Quarters } from "./quarters";
import type { Transposition } from "./transposition";

/** What a part is for; `other` is a part that nobody placed yet. */
export type PartRole = "solo" | "reduction" | "orchestra" | "other";

export interface ClefChange {
  readonly onset: Quarters;
  readonly barIndex: number;
  readonly staff: number;
  readonly sign: string;
  readonly line: number | null;
  readonly octaveChange: number;
}

/** Key signature as written on the part's own staff, before transposition. */
export interface KeyChange {
  readonly onset: Quarters;
  readonly barIndex: number;
  /** Null: all staves. */
  readonly staff: number | null;
  readonly fifths: number | null;
  readonly mode: string | null;
}

export interface TranspositionChange {
  readonly onset: Quarters;
  readonly barIndex: number;
  readonly transposition: Transposition;
}

export interface Part {
  /** MusicXML `part` id. */
  readonly id: string;
  readonly name: string;
  readonly abbreviation: string | null;
  /** MusicXML 4.0 sound id such as "wind.reed.clarinet.bflat"; null when the file names none. */
  readonly soundId: string | null;
  /** General MIDI program, from 1; null when the file names none. */
  readonly midiProgram: number | null;
  readonly role: PartRole;
  readonly staffCount: number;
  /** By onset, then as written. Chord members and grace notes included. */
  readonly notes: readonly Note[];
  readonly rests: readonly Rest[];
  readonly directions: readonly Direction[];
  readonly clefs: readonly ClefChange[];
  readonly keys: readonly KeyChange[];
  readonly transpositions: readonly TranspositionChange[];
}
