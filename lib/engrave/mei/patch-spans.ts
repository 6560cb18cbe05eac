/** A measure's beginning, or where a line or sign ends: how many measures on, and at which beat (MEI 5, `@tstamp2`). */
const marks = /<measure\b[^>]*?\bxml:id="([^"]*)"|\btstamp2="(\d+)m\+/g;

/**
 * Lets lines and signs in the engraver's notation (MEI) end where they do in the score: its importer (verovio 6.3.0) makes
 * one measure of a row of rests, but counts all of them on the way to an end.
 *
 * @param idOfBar ids of the score's measures in order.
 * @returns the text unchanged when no line goes over such a row.
 */
export function patchSpans(mei: string, idOfBar: readonly string[]): string {
  const places = new Map(idOfBar.map((id, index) => [id, index]));
  const starts = [...mei.matchAll(marks)].flatMap(([, id]) => {
    const place = id === undefined ? undefined : places.get(id);
    return place === undefined ? [] : [place];
  });
  if (starts.length === idOfBar.length) return mei;
  /** The engraver's measure that holds a bar of the score. */
  const measureOf = (bar: number) => starts.findLastIndex((start) => start <= bar);
  let bar = 0;
  return mei.replace(marks, (whole: string, id: string | undefined, count: string | undefined) => {
    if (count === undefined) {
      bar = places.get(id ?? "") ?? bar;
      return whole;
    }
    return `tstamp2="${measureOf(bar + Number(count)) - measureOf(bar)}m+`;
  });
}
