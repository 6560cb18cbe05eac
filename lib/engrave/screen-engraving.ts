/** Where a bar stands in the picture of its system, in units of the picture's `viewBox`. */
export interface BarBox {
  /** In the score that was engraved. */
  readonly barIndex: number;
  readonly x: number;
  readonly width: number;
  /** Upper line of the highest staff and lower line of the lowest. */
  readonly top: number;
  readonly bottom: number;
  /** Each staff's outer lines, from the top. */
  readonly staves: readonly { readonly top: number; readonly bottom: number }[];
}

/** One system as a picture of its own. */
export interface EngravedSystem {
  readonly index: number;
  /** Of the `viewBox`, which starts at 0, 0. */
  readonly width: number;
  readonly height: number;
  readonly firstBarIndex: number;
  readonly lastBarIndex: number;
  readonly bars: readonly BarBox[];
  /**
   * Inert SVG: shapes, text and references inside itself only; no style, no script. Everything is drawn in
   * `currentColor`; text takes the family of the page, music signs in text (class `music-sign`) ask for "Leipzig". `g.measure`, `g.note`
   * and `g.rest` carry the ids of the score.
   */
  readonly svg: string;
}

/** A score engraved for a screen. */
export interface ScreenEngraving {
  /** Changes when the same score would be engraved otherwise: part of every key under which engravings are kept. */
  readonly rendererVersion: string;
  readonly systems: readonly EngravedSystem[];
}
