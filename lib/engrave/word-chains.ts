import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/** Words of so many signs may reach over the end of a bar of usual width. */
const longWords = 10;
/** So many bars in a row make a chain: of fewer, lines can be made. */
const leastChain = 3;

/**
 * Bars between which the engraver (verovio 6.3.0) would begin no line: it breaks none behind a bar whose words reach over its
 * end, so that many such bars in a row are one line, however full it gets, and what is before them another, however empty.
 *
 * @returns ids of every second bar of each such row: without their words, lines can be made of it.
 */
export function findWordChains(tree: MusicXmlTree): string[] {
  const signs = signsOfWords(tree);
  const ids = childrenNamed(tree.parts[0] ?? tree.root, "measure").map(
    ({ attributes }) => attributes.id ?? "",
  );
  const found: string[] = [];
  let chain: string[] = [];
  const end = () => {
    if (chain.length >= leastChain) found.push(...chain.filter((_, index) => index % 2 === 1));
    chain = [];
  };
  for (const [index, id] of ids.entries()) {
    if ((signs[index] ?? 0) >= longWords) chain.push(id);
    else end();
  }
  end();
  return found;
}

/** How many signs the longest line of words in each bar has, in any part. */
export function signsOfWords({ parts }: MusicXmlTree): number[] {
  const measures = parts.map((part) => childrenNamed(part, "measure"));
  return (measures[0] ?? []).map((_, index) => Math.max(0, ...measures.map((own) => longestOf(own[index]))));
}

const longestOf = (measure: XmlElement | undefined): number =>
  Math.max(0, ...linesOf(measure).map((line) => line.trim().length));

function linesOf(measure: XmlElement | undefined): string[] {
  const directions = measure ? childrenNamed(measure, "direction") : [];
  return directions
    .flatMap((direction) => childrenNamed(direction, "direction-type"))
    .flatMap((type) => childrenNamed(type, "words"))
    .flatMap((words) => textOf(words).split("\n"));
}

/** The engraver's notation (MEI) with words of these measures cut to their first letter: to find lines in, not to be drawn. */
export function shortenWords(mei: string, measureIds: ReadonlySet<string>): string {
  if (measureIds.size === 0) return mei;
  return mei.replace(
    /<measure\b[^>]*?\bxml:id="([^"]*)"[\s\S]*?<\/measure>/g,
    (measure: string, id: string) =>
      measureIds.has(id)
        ? measure.replace(/<(dir|tempo|dynam)\b[^>]*>[\s\S]*?<\/\1>/g, (sign) =>
            sign.replace(/>\s*([^<\s])[^<]*</g, ">$1<"),
          )
        : measure,
  );
}
