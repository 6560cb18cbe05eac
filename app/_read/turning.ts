/** What somebody at the stand can ask for. */
export type Turn = "on" | "back" | "first" | "last";

/** How many pages there are, and how many of them stand side by side. */
export interface Leaves {
  readonly pageCount: number;
  readonly sideBySide: 1 | 2;
}

/** The first of the pages that show a page: two stand as in a book whose first page is on the left. */
export function firstShown(page: number, { pageCount, sideBySide }: Leaves): number {
  const within = Math.min(Math.max(1, page), Math.max(1, pageCount));
  return within - ((within - 1) % sideBySide);
}

/** The first page that is shown after turning. At either end it stays where it is. */
export function turned(page: number, turn: Turn, leaves: Leaves): number {
  const { pageCount, sideBySide } = leaves;
  const now = firstShown(page, leaves);
  switch (turn) {
    case "on":
      return now + sideBySide > pageCount ? now : now + sideBySide;
    case "back":
      return firstShown(now - sideBySide, leaves);
    case "first":
      return firstShown(1, leaves);
    case "last":
      return firstShown(pageCount, leaves);
  }
}

/** The pages that are shown, from 1. */
export function pagesShown(page: number, leaves: Leaves): number[] {
  const first = firstShown(page, leaves);
  const last = Math.min(leaves.pageCount, first + leaves.sideBySide - 1);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}

/** The pages that are drawn though only some of them are shown: those one turn away are there before they are asked for. */
export function pagesReady(page: number, leaves: Leaves): number[] {
  const first = firstShown(page, leaves);
  const from = Math.max(1, first - leaves.sideBySide);
  const to = Math.min(leaves.pageCount, first + 2 * leaves.sideBySide - 1);
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => from + index);
}

/** In which order pages are fetched: those shown, those after them, then those before them, the nearest first. */
export function fetchOrder(page: number, leaves: Leaves): number[] {
  const first = firstShown(page, leaves);
  const all = Array.from({ length: leaves.pageCount }, (_, index) => index + 1);
  return [...all.filter((each) => each >= first), ...all.filter((each) => each < first).reverse()];
}
