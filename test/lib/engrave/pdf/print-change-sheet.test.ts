import { describe, expect, it } from "vitest";
import type { ChangeSheetInput } from "@/lib/engrave/pdf/change-sheet-input";
import { printChangeSheet } from "@/lib/engrave/pdf/print-change-sheet";
import { readPdf } from "./read-pdf";

const strip = {
  totalSeconds: 700,
  soloPlays: [{ startSeconds: 60, endSeconds: 300 }],
  tuttis: [{ startSeconds: 0, endSeconds: 60, barCount: 24 }],
  cuts: [{ number: 1, startSeconds: 20, endSeconds: 46 }],
  letters: [{ text: "A", seconds: 52 }],
};
const side = (name: string, runningSeconds: number) => ({ name, runningSeconds, playedBarCount: 180, strip });

function sheet(cuts: number, breaths: number): ChangeSheetInput {
  const lines = (count: number, sentence: (index: number) => string) =>
    Array.from({ length: count }, (_, index) => ({ sentence: sentence(index), secondsLonger: -8 * index }));
  return {
    paper: "A4",
    titleBlock: {
      title: "Concertino",
      movement: "first movement",
      composer: "Žofie Młynek",
      soloInstrument: "Clarinet in B♭",
      editionNumber: 4,
      frozenOn: "2026-02-26",
      hash: "9f3a6c1b00ddeeff",
      players: [],
    },
    barCount: 213,
    sides: { earlier: side("Edition № 3", 702), later: side("Edition № 4", 689) },
    sections: [
      {
        title: "Cuts",
        lines: lines(cuts, (index) => `Cut ${index + 1} begins at bar ${index + 80} now, two bars later.`),
      },
      { title: "Breaths", lines: lines(breaths, (index) => `A breath before bar ${index + 10} is new.`) },
    ],
  };
}

describe("printChangeSheet", () => {
  it("says everything on one page: running times, each difference, the hash", async () => {
    const pdf = await readPdf(await printChangeSheet(sheet(3, 2)));
    expect(pdf.pages).toHaveLength(1);
    const [text = ""] = pdf.pages;
    for (const words of [
      "What changed, to № 4",
      "solo clarinet in B",
      "Edition № 3",
      "11:42",
      "11:29, 0:13 shorter",
      "Cut 3 begins at bar 82 now",
      "−0:16",
      "A breath before bar 11 is new.",
      "9f3a6c1b00ddeeff",
    ])
      expect(text).toContain(words);
    expect(pdf.info.Title).toBe("What changed · Concertino · Edition № 4");
    expect([pdf.language, pdf.hasAllFonts]).toEqual(["en", true]);
  });

  it.each([
    [30, 40],
    [400, 400],
  ])(
    "keeps to one page with %i cuts and %i breaths, and counts what finds no room",
    async (cuts, breaths) => {
      const [text = "", ...others] = (await readPdf(await printChangeSheet(sheet(cuts, breaths)))).pages;
      expect(others).toEqual([]);
      const shown = (text.match(/Cut \d+ begins|A breath before/g) ?? []).length;
      const left = Number(/and (\d+) more/.exec(text)?.[1] ?? 0);
      expect(shown + left).toBe(cuts + breaths);
    },
  );

  it("says that nothing changed", async () => {
    const [text] = (await readPdf(await printChangeSheet(sheet(0, 0)))).pages;
    expect(text).toContain("Nothing that is played changed.");
  });
});
