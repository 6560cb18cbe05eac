import { childElements, textOf, type XmlElement } from "./xml-tree";

/**
 * Picks the first verse of a part's lyrics. It is the one numbered 1, named "…verse1" or not numbered at all; in a part
 * whose verses carry other names, the one that comes first.
 */
export class FirstVerse {
  private first: string | null = null;

  /** Sung text of the first verse as printed, syllables joined by their elision; null when the note has none. */
  textIn(lyrics: readonly XmlElement[]): string | null {
    if (lyrics.length === 0) return null;
    this.first ??= lyrics[0]?.attributes.number ?? null;
    const chosen = lyrics.find(({ attributes }) => isFirst(attributes.number)) ?? this.byFirstSeen(lyrics);
    const text = chosen ? sungText(chosen) : "";
    return text === "" ? null : text;
  }

  private byFirstSeen(lyrics: readonly XmlElement[]): XmlElement | undefined {
    const isNumbered = /^\s*\d+\s*$/.test(this.first ?? "");
    return isNumbered ? undefined : lyrics.find(({ attributes }) => attributes.number === this.first);
  }
}

function isFirst(number: string | undefined): boolean {
  return number === undefined || /^(.*verse)?\s*1$/i.test(number.trim());
}

function sungText(lyric: XmlElement): string {
  const parts = childElements(lyric).map((part) => {
    if (part.name === "text") return textOf(part);
    if (part.name === "elision") return textOf(part) || " ";
    return "";
  });
  return parts.join("").trim();
}
