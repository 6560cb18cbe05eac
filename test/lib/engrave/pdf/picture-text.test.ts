import { describe, expect, it } from "vitest";
import { readPictureText } from "@/lib/engrave/pdf/picture-text";
import { readMarkup } from "@/lib/engrave/read-picture";

/** Every sign is half as wide as it is high, and in the wanted face. */
const runsOf = (inside: string) =>
  readPictureText(
    readMarkup(`<text x="1000" y="50">${inside}</text>`),
    { isBold: false, isItalic: false },
    () => true,
    (_, size, text) => text.length * size * 0.5,
  ).map(({ text, x }) => [text, x]);
const sign = (text: string) => `<tspan font-family="Leipzig" font-size="720px">${text}</tspan>`;
const words = (text: string) => `<tspan font-size="400px">${text}</tspan>`;

describe("readPictureText", () => {
  it("sets runs one behind the other", () => {
    expect(runsOf(words("a tempo") + words(" = 60"))).toEqual([
      ["a tempo", 1000],
      [" = 60", 1000 + 7 * 200],
    ]);
  });

  it("keeps the note of a tempo off the bracket before it, and sets no other sign apart", () => {
    expect(runsOf(words("(") + sign("q") + words(")"))).toEqual([
      ["(", 1000],
      ["q", 1000 + 200 + 36],
      [")", 1000 + 200 + 36 + 360],
    ]);
    expect(runsOf(words("a") + sign("q"))[1]).toEqual(["q", 1200]);
  });
});
