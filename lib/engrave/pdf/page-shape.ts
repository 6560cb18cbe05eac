import type { Paper, PrintOptions } from "./print-options";

/** The shape of a page and what of it is left free of music. Points, 72 to the inch. */
export interface PageShape {
  readonly width: number;
  readonly height: number;
  /** Left and right of the music. */
  readonly side: number;
  /** Upper edge of the music on all pages but the first. */
  readonly top: number;
  /** Under the music. */
  readonly foot: number;
  /** Baseline of the foot's words, from the lower edge of the page. */
  readonly footBaseline: number;
  /** Baseline of the title, from the upper edge. */
  readonly titleBaseline: number;
}

/**
 * ISO 216 A4 and US Letter. The tablet's page is a screen of 12½ inches across the corner, three wide by four high; it lies in
 * a frame of its own, so its margins are narrow.
 */
export const pageShapes: Readonly<Record<Paper, PageShape>> = {
  A4: { width: 595.28, height: 841.89, side: 42, top: 40, foot: 44, footBaseline: 26, titleBaseline: 66 },
  Letter: { width: 612, height: 792, side: 42, top: 40, foot: 44, footBaseline: 26, titleBaseline: 66 },
  tablet: { width: 540, height: 720, side: 18, top: 12, foot: 22, footBaseline: 7, titleBaseline: 34 },
};

/** How somebody reads from the pages; a tablet shows one after the other, whatever was asked for. */
export function sidesOf({ paper, sides }: Pick<PrintOptions, "paper" | "sides">): PrintOptions["sides"] {
  return paper === "tablet" ? "single" : sides;
}
