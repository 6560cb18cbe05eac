import { describe, expect, it } from "vitest";
import { readPictureText } from "@/lib/engrave/pdf/picture-text";
import type { FaceName } from "@/lib/engrave/pdf/print-fonts";
import { readMarkup } from "@/lib/engrave/picture/read-picture";

const forte = "\ue522";
/** The music font has signs of music only, the others have the rest. */
const has = (face: FaceName, codePoint: number) => (face === "music") === codePoint >= 0xe000;
const read = (inside: string) =>
  readPictureText(
    readMarkup(`<text x="100" y="200" font-size="0px">${inside}</text>`),
    { isBold: false, isItalic: true },
    has,
    (_, size, text) => text.length * size * 0.5,
  );

describe("readPictureText", () => {
  it("draws a sign of loudness inside words as large as one that stands alone, and clear of the word before", () => {
    const [word, sign] = read(
      `<tspan font-size="405px">poco </tspan><tspan font-size="405px">${forte}</tspan>`,
    );
    expect(word).toMatchObject({ text: "poco ", face: "serif-italic", size: 405, x: 100 });
    expect(sign).toMatchObject({ text: forte, face: "music", size: 720, y: 200 });
    expect(sign?.x).toBeCloseTo(100 + 5 * 405 * 0.5 + 0.094 * 720);
  });

  it("leaves those as they are that the engraver sets itself", () => {
    const [sign] = read(`<tspan font-family="Leipzig" font-size="720px">${forte}</tspan>`);
    expect(sign).toMatchObject({ face: "music", size: 720, x: 100 });
  });
});
