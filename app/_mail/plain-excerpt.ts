import { cleanLine } from "@/lib/store/clean-text";

/** What mail programs turn into something to press. The address of a message's reader is not verified: nobody may lead a stranger elsewhere. */
const links = /\S*:\/\/\S*|\bwww\.\S+|\b[\p{L}\p{N}-]+(?:\.[\p{L}\p{N}-]+)*\.\p{L}{2,}\/\S*|\S+@\S+\.\S+/giu;

/**
 * What somebody wrote, for a message: one line without controls, without links, and not longer than asked.
 *
 * @param most letters as people count them.
 */
export function plainExcerpt(text: string, most: number): string {
  const line = cleanLine(cleanLine(text).replace(links, "[link]"));
  const letters = [...new Intl.Segmenter("en", { granularity: "grapheme" }).segment(line)];
  if (letters.length <= most) return line;
  const kept = letters.slice(0, most - 1).map(({ segment }) => segment);
  return `${endAtWord(kept.join(""))}…`;
}

/** Without the last, broken word, unless that would leave next to nothing. */
function endAtWord(text: string): string {
  const end = text.lastIndexOf(" ");
  return (end > text.length / 2 ? text.slice(0, end) : text).trimEnd();
}
