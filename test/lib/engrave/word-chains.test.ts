import { describe, expect, it } from "vitest";
import { findWordChains, shortenWords, signsOfWords } from "@/lib/engrave/word-chains";
import { bars, direction, note, source } from "../musicxml/cut/small-source";

const words = (text: string) => direction(`<words>${text}</words>`);

/** Bars "b0", "b1" … with these words; none for an empty text. */
function chains(...texts: string[]): string[] {
  const tree = source(texts.map((text) => (text ? words(text) : "") + note("C5", 16)));
  for (const [index, bar] of bars(tree).entries()) bar.attributes.id = `b${index}`;
  return findWordChains(tree);
}

describe("findWordChains", () => {
  const long = "un poco più mosso";
  it.each([
    [[long, long, "", long, long], []],
    [[long, long, long, ""], ["b1"]],
    [
      ["", long, long, long, long, long, "", long, long, long],
      ["b2", "b4", "b8"],
    ],
    [["dolce", "rit.", "a tempo", "dolce"], []],
  ])("of %j are %j", (texts, expected) => {
    expect(chains(...texts)).toEqual(expected);
  });

  it("counts the words of all parts", () => {
    const tree = source(
      [words(long) + note("C5", 16), note("C5", 16), words(long) + note("C5", 16)],
      [note("C4", 16), words(long) + note("C4", 16), note("C4", 16)],
    );
    for (const part of [0, 1])
      for (const [index, bar] of bars(tree, part).entries()) bar.attributes.id = `b${index}`;
    expect(findWordChains(tree)).toEqual(["b1"]);
  });
});

describe("signsOfWords", () => {
  it("counts the longest line in each bar", () => {
    const tree = source([words("a tempo") + words("dolce"), note("C5", 16), words("wait for it,\nthen on")]);
    expect(signsOfWords(tree)).toEqual([7, 0, 12]);
  });
});

describe("shortenWords", () => {
  it("leaves the first letter of words in the measures that are named, and all else", () => {
    const measure = (id: string) =>
      `<measure n="1" xml:id="${id}"><staff><verse><syl>sung</syl></verse></staff>` +
      `<dir xml:id="d"><rend fontstyle="italic">un poco</rend><lb/><rend>mosso</rend></dir></measure>`;
    const shortened = shortenWords(`${measure("a")}${measure("b")}`, new Set(["b"]));
    expect(shortened).toBe(measure("a") + measure("b").replace("un poco", "u").replace("mosso", "m"));
    expect(shortenWords(measure("a"), new Set())).toBe(measure("a"));
  });
});
