import type { WindowSize } from "./tap-zone";

/** Width and height of a page, in any unit. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

export interface FittedPages {
  readonly sideBySide: 1 | 2;
  /** Of one page, in whole CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/** Two pages may be so much smaller than one alone would be: lying tablets show them, upright ones never do. */
const leastShare = 0.8;

/** The largest pages that fit the window whole: two side by side where that costs little of their size. */
export function fitPages(page: PageSize, window: WindowSize): FittedPages {
  const alone = Math.min(window.width / page.width, window.height / page.height);
  const paired = Math.min(window.width / (2 * page.width), window.height / page.height);
  const isPaired = paired >= alone * leastShare;
  const scale = isPaired ? paired : alone;
  return {
    sideBySide: isPaired ? 2 : 1,
    width: Math.floor(page.width * scale),
    height: Math.floor(page.height * scale),
  };
}
