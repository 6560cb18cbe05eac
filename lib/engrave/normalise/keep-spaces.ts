import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/** U+00A0, which is as wide as a space and no blank of XML. */
const space = "\u00a0";
const styles = ["color", "font-family", "font-size", "font-style", "font-weight"];

/**
 * Spaces between words of one direction, such as an upright one behind an italic one, and before the sign of loudness or the
 * note of a tempo that follow them: the engraver (verovio 6.3.0) loses them at both ends of words that have a style when it
 * reads its own notation. Where a source has none before the note of a tempo, one is set.
 */
export function keepSpaces(tree: MusicXmlTree): void {
  for (const part of tree.parts)
    for (const measure of childrenNamed(part, "measure"))
      for (const direction of childrenNamed(measure, "direction")) keepIn(direction);
}

function keepIn(direction: XmlElement): void {
  const signs = childrenNamed(direction, "direction-type").flatMap(childElements);
  for (const [index, words] of signs.entries()) {
    if (words.name !== "words" || !styles.some((style) => words.attributes[style] !== undefined)) continue;
    const next = signs[index + 1]?.name;
    let text = textOf(words);
    if (text.trim() === "") continue;
    if (signs[index - 1]?.name === "words") text = text.replace(/^ +/, space);
    if (next === "words") text = text.replace(/ +$/, space);
    if (next === "metronome") text = `${text.trimEnd()}${space}`;
    words.children = [{ kind: "text", text }];
  }
}
