import type { Reading } from "@/lib/engrave/pages/reading-plan";

/** The page on which a bar stands, from 1; the bar by its place among those that are printed. */
export function pageOfBar({ pages }: Pick<Reading, "pages">, barIndex: number): number {
  const page = pages.findLast(({ systems }) => (systems[0]?.firstBarIndex ?? Infinity) <= barIndex);
  return page?.number ?? 1;
}

/** The first bar of a page; 0 when there is no such page. */
export function firstBarOf({ pages }: Pick<Reading, "pages">, pageNumber: number): number {
  return pages.find(({ number }) => number === pageNumber)?.systems[0]?.firstBarIndex ?? 0;
}
