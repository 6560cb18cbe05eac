import type { PrintedBar } from "./laid-out-edition";
import type { PageTurn } from "./page-turn";

/** A page as one looks at it before it is printed. */
export interface PreviewPage {
  /** From 1. */
  readonly number: number;
  readonly turn: PageTurn | null;
  readonly systems: readonly { readonly firstBar: PrintedBar; readonly lastBar: PrintedBar }[];
  /** The whole page as inert SVG without text: every letter is drawn, so that it looks the same everywhere. */
  readonly svg: string;
}

/** The pages of an edition, as they will be printed. */
export interface EditionPreview {
  /** Of a page, in points. */
  readonly width: number;
  readonly height: number;
  readonly pages: readonly PreviewPage[];
  /** All bars that are printed, in order: each but the first may begin a page. */
  readonly bars: readonly PrintedBar[];
}
