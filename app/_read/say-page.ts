import type { ReadingPage } from "@/lib/engrave/pages/reading-plan";

/** "Page 3 of 12", or "Pages 3 and 4 of 12". */
export function sayPages(shown: readonly number[], pageCount: number): string {
  const [first = 1, second] = shown;
  return second === undefined
    ? `Page ${first} of ${pageCount}`
    : `Pages ${first} and ${second} of ${pageCount}`;
}

/** What of a page can be told in words: "Page 3: Bars 20 to 24. Bars 25 to 31." */
export function describePage({ number, systems }: ReadingPage): string {
  return `Page ${number}: ${systems.map(({ alt }) => `${alt}.`).join(" ")}`;
}
