import { describe, expect, it } from "vitest";
import { writeFullScore } from "@/seed/concertino/write-full-score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { readVoices } from "./read-voices";
import { composition } from "./sounding";

const QUARTER_TICKS = 24;

describe.each([
  ["solo and reduction", writeSoloAndReduction(), 2],
  ["full score", writeFullScore(), 11],
])("%s", (_, xml, partCount) => {
  const parts = readVoices(xml);

  it("has its parts", () => {
    expect(parts).toHaveLength(partCount);
  });

  it("fills every voice of every bar exactly", () => {
    const wrong = parts.flatMap((part, p) =>
      part.flatMap(({ number, voices }) => {
        const length = number === "0" ? QUARTER_TICKS : 4 * QUARTER_TICKS;
        return [...voices].filter(([, end]) => end !== length).map(([voice]) => ({ p, number, voice }));
      }),
    );
    expect(wrong).toEqual([]);
  });

  it("numbers the bars 0 to 213 in every part", () => {
    const numbers = Array.from({ length: 214 }, (_, i) => String(i));
    for (const part of parts) expect(part.map(({ number }) => number)).toEqual(numbers);
  });

  it("writes a silent bar as a whole-bar rest", () => {
    const [first] = parts;
    expect(first?.filter(({ wholeBarRests }) => wholeBarRests > 0).length).toBeGreaterThan(30);
  });
});

describe("the two files", () => {
  it("agree on tempi, letters, repeats, endings and barlines", () => {
    const frame = (xml: string) =>
      xml
        .match(/<(rehearsal|per-minute|repeat|ending|bar-style|words font-weight)[^>]*(>[^<]*)?/g)
        ?.map(String);
    const firstPart = (xml: string) => xml.slice(0, xml.indexOf("</part>"));
    expect(frame(firstPart(writeFullScore()))).toEqual(frame(firstPart(writeSoloAndReduction())));
  });

  it("are the same on every call", () => {
    expect(writeSoloAndReduction()).toBe(writeSoloAndReduction());
  });

  it("carry a letter at the start of every section, in one part only", () => {
    const letters = [...writeSoloAndReduction().matchAll(/<rehearsal[^>]*>(\w)</g)].map(
      ([, letter]) => letter,
    );
    expect(letters).toEqual([..."ABCDEFGHIKLM"]);
  });

  it("hold 853 written quarters", () => {
    expect(composition.bars.reduce((sum, { ticks }) => sum + ticks, 0)).toBe(853 * QUARTER_TICKS);
  });
});
