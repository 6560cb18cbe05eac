/** How somebody reads from pages: one page after the other (a tablet, single sheets), or a book, which lies open at two. */
export interface Paging {
  readonly sides: "single" | "double";
  /** In a book: the side on which page 1 stands. */
  readonly firstPage: "right" | "left";
}

/** One page after the other. */
export const singlePages: Paging = { sides: "single", firstPage: "right" };

/** Whether a page is turned when it has been played, by its index from 0. In a book only right-hand pages are. */
export function isTurned(pageIndex: number, { sides, firstPage }: Paging): boolean {
  return sides === "single" || (pageIndex % 2 === 0) === (firstPage === "right");
}
