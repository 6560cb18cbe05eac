/**
 * Divides a score in the engraver's notation (MEI) into lines, a page each: one begins at each of these measures, and
 * nowhere else. Whatever breaks it had are gone.
 *
 * A break stands before all that belongs to the measure: its section or ending, and a change of key or metre.
 */
export function breakPages(mei: string, measureIds: ReadonlySet<string>): string {
  const plain = mei.replace(/<(pb|sb)\b[^>]*\/>/g, "");
  const out: string[] = [];
  let [copied, placeOfBreak] = [0, 0];
  for (const tag of plain.matchAll(
    /<measure\b[^>]*?\bxml:id="([^"]*)"|<\/measure>(\s*<\/(section|ending)>)*/g,
  )) {
    const [text, id] = tag;
    if (id === undefined) placeOfBreak = tag.index + text.length;
    else if (measureIds.has(id) && placeOfBreak > 0) {
      out.push(plain.slice(copied, placeOfBreak), "<pb/>");
      copied = placeOfBreak;
    }
  }
  return [...out, plain.slice(copied)].join("");
}
