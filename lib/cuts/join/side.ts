import type { Window } from "./window";

/**
 * One side of a place, heard without the other: what stands just before it, or what begins with it. Everything that
 * the smoothness of a join is judged by is computed from one such side before and one after, so that nothing knows
 * which two sides belong together in the piece.
 */
export interface Side {
  /** MIDI numbers nearest to the place, from the lowest, each once; of what sounded last (or first) within a bar. */
  readonly pitches: Uint8Array;
  /** Bit `p` for pitch class `p` of them. */
  readonly mask: number;
  /** Whether something sounds at the very place, not only near it. */
  readonly sounds: boolean;
  /** Notes that sound on across the place: lane × 128 + MIDI number, sorted. */
  readonly held: Int32Array;
  /** By lane: the highest pitch nearest to the place within a bar; 0 where the lane is silent. */
  readonly laneTop: Uint8Array;
  /** Bits of the lanes that sound in the beat at the place; lanes beyond 32 share bits. */
  readonly lanes: number;
  /** Mean of the pitches that sound in that beat; NaN in silence. */
  readonly centroid: number;
  /** The bar's length of music at the place, and the one farther away (before it only). */
  readonly window: Window;
  readonly farWindow: Window | null;
  /** Bits of the lanes with a slur across the place. */
  readonly slurs: number;
  /** 1 inside a crescendo, −1 inside a diminuendo that goes across the place. */
  readonly hairpin: number;
  /** Mean printed level of the parts; NaN when none is printed yet. */
  readonly level: number;
  /** Number of the chord heard in the beat alone, see `allChords`; −1 in silence. */
  readonly chord: number;
  /** By number of the key: what the two bars at the place say against it, in thousandths. */
  readonly keyCosts: Int32Array;
  /** Printed signature; NaN where it is none of the usual. */
  readonly signature: number;
}
