import { listSides } from "@/lib/edition/choose-sides";
import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import { findBar, findBarByLabel, sayBarInEdition } from "@/lib/edition/find-bar";
import { type About, contentOf, isOfThisFile, mapOfContent, namesOf } from "./edition-sides";
import type { FoundPlace } from "./editions-view";

/** More letters than any printed bar number has. */
const longestLabel = 12;

/** Where a bar of the page is in each version; null when none is asked for. */
export function findPlace(about: About, asked: unknown): FoundPlace | null {
  if (typeof asked !== "string" || asked.trim() === "") return null;
  const { score } = about.music;
  const text = asked.trim().slice(0, longestLabel);
  const barIndex = findBarByLabel(score, text.replace(/^bars?\s+/i, ""));
  if (barIndex === null) {
    const [first, last] = [score.bars[0]?.label, score.bars.at(-1)?.label];
    const problem = `There is no bar “${text}” on the page: it goes from bar ${first} to bar ${last}.`;
    return { asked: text, problem, label: "", sides: [] };
  }
  const sides = listSides({ editionCount: about.editions.length }).flatMap((name) => {
    const content = contentOf(about, name);
    if (!isOfThisFile(about, content)) return [];
    const found = findBar(mapOfContent(about, content), barIndex);
    const isCut = found.numbers.length === 0;
    const words = isCut ? sayCut(about, content, barIndex) : sayBarInEdition(found);
    return [{ name, words, isCut, of: found.of }];
  });
  return { asked: text, problem: null, label: score.bars[barIndex]?.label ?? "", sides };
}

/** Which cut has the bar; a bar that no cut has and that is not played stands in an ending or after a jump. */
function sayCut(about: About, content: EditionContent, barIndex: number): string {
  const cut = content.cuts.find(({ from, to }) => from.barIndex <= barIndex && barIndex <= to.barIndex);
  return cut ? `cut (${namesOf(about).cut(toCutSpan(cut))})` : "not played, also without cuts";
}
