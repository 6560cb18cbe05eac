import type { Position } from "@/lib/score/position";
import type { HandName } from "./hands-profile";

/** What makes a place awkward. */
export type StrainKind =
  /** A chord wider than the hand. */
  | "stretch"
  /** More keys than fingers. */
  | "too many notes"
  /** A held note too far from what moves beside it. */
  | "held note"
  /** The hands reach over one another or for the same key. */
  | "crossing"
  | "leap"
  | "repeated note"
  | "repeated chord"
  /** Octaves or chords that move. */
  | "octaves in a row"
  | "run";

/**
 * One thing that is asked of one hand. `load` is 1 where it stops being comfortable, 2 where it cannot be done; that of a
 * timed one grows with the tempo, and is told for the tempo that was read.
 */
export interface Strain {
  readonly kind: StrainKind;
  readonly hand: HandName;
  readonly load: number;
  readonly isTimed: boolean;
  /** Semitones, keys, or strokes a second, by kind; a leap's is the semitones that the hand travels. */
  readonly figure: number;
  /** What this pianist calls comfortable of the same; a leap's is the seconds it takes. */
  readonly limit: number;
  /** For a leap, the seconds that there are. Null for other kinds. */
  readonly availableSeconds: number | null;
  /** Every chord of it is an octave or wider: it is held against what the hand manages of octaves. */
  readonly isOfOctaves: boolean;
  readonly noteIds: readonly string[];
  readonly at: Position;
}
