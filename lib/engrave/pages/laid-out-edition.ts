import type { TextStyle } from "../pdf/type-setter";
import type { EngravedSystem } from "../screen-engraving";
import type { PageTurn } from "./page-turn";

/** Something printed on a page beside the music. Points from the top left; text stands on its baseline. */
export type PageItem =
  | {
      readonly kind: "text";
      readonly text: string;
      readonly x: number;
      readonly y: number;
      readonly style: TextStyle;
    }
  | {
      readonly kind: "rule";
      readonly x1: number;
      readonly x2: number;
      readonly y: number;
      readonly thickness: number;
    };

/** Items that are read together: a heading, a paragraph, or what belongs to the page and not to what it says. */
export interface PageWords {
  readonly tag: "H1" | "P" | "ornament";
  readonly items: readonly PageItem[];
}

/** A system with its upper left corner at a place on the page. */
export interface PlacedPicture {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** "Bars 12 to 17", for somebody who does not see it. */
  readonly alt: string;
  /** Ids and printed numbers of the first and last bar, which are those of the source. */
  readonly firstBar: PrintedBar;
  readonly lastBar: PrintedBar;
  readonly system: EngravedSystem;
}

export interface PrintedBar {
  readonly id: string;
  /** The printed number. */
  readonly label: string;
  /** Its place in the source. */
  readonly sourceIndex: number;
}

export interface EditionPage {
  /** From 1. */
  readonly number: number;
  readonly systems: readonly PlacedPicture[];
  /** Read before the music, and after it. */
  readonly head: readonly PageWords[];
  readonly foot: readonly PageWords[];
  /** Null for the last page, and for the left-hand pages of a book. */
  readonly turn: PageTurn | null;
}

/** An edition on its pages, for one reader and one paper. The music is drawn in `currentColor`. */
export interface LaidOutEdition {
  /** Of a page, in points. */
  readonly width: number;
  readonly height: number;
  readonly pages: readonly EditionPage[];
  /** All bars that are printed, in order. */
  readonly bars: readonly PrintedBar[];
  /** Changes when the same edition would be laid out otherwise. */
  readonly rendererVersion: string;
}
