import { describe, expect, it } from "vitest";
import type { CutSheetInput } from "@/lib/engrave/pdf/cut-sheet-input";
import { printCutSheet } from "@/lib/engrave/pdf/print-cut-sheet";
import { readScore } from "@/lib/musicxml/read-score";
import type { PartRole } from "@/lib/score/part";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { cut } from "../../musicxml/cut/small-source";
import { readPdf } from "./read-pdf";

const sourceMusicXml = new TextEncoder().encode(writeSoloAndReduction());
const read = readScore(sourceMusicXml);
if (!read.ok) throw new Error(read.problem.kind);
const { score } = read.value;
const partRoles: Record<string, PartRole> = Object.fromEntries(score.parts.map(({ id, role }) => [id, role]));
const spans = [
  "9 to 21",
  "60 to 64",
  "85+2 to 97+2",
  "120 to 121",
  "130 to 134",
  "140 to 142",
  "150 to 152",
].map(cut);

function sheet(count: number): CutSheetInput {
  const cuts = spans.slice(0, count);
  return {
    sourceMusicXml,
    partRoles,
    paper: "A4",
    titleBlock: {
      title: "Concertino",
      movement: "first movement",
      composer: "Žofie Młynek",
      soloInstrument: "Clarinet",
      editionNumber: 4,
      frozenOn: "2026-02-26",
      hash: "9f3a6c1b00ddeeff",
      players: [
        { name: "Ottilie Venn", role: "piano", agreedOn: "2026-02-25" },
        { name: "Tobias Kerr", role: "clarinet", agreedOn: "2026-02-26" },
      ],
    },
    barCount: score.bars.length,
    playedBarCount: score.bars.length - 24,
    runningSeconds: 702,
    limitSeconds: 720,
    occasion: { name: "Ostermark Wind Prize", round: "Second round", on: "2026-03-14" },
    strip: {
      totalSeconds: 754,
      soloPlays: [{ startSeconds: 360, endSeconds: 558 }],
      tuttis: [{ startSeconds: 250, endSeconds: 300, barCount: 24 }],
      cuts: cuts.map((_, index) => ({
        number: index + 1,
        startSeconds: 20 + 100 * index,
        endSeconds: 46 + 100 * index,
      })),
      letters: [{ text: "A", seconds: 52 }],
    },
    cuts: cuts.map((span, index) => ({
      number: index + 1,
      span,
      tutti: index === 0 ? "opening" : null,
      barCount: 12,
      savedSeconds: 26,
    })),
  };
}

const label = (barIndex: number): string => score.bars[barIndex]?.label ?? "";

describe("printCutSheet", () => {
  it("says everything on one page", async () => {
    const pdf = await readPdf(await printCutSheet(sheet(2)));
    expect(pdf.pages).toHaveLength(1);
    const [text = ""] = pdf.pages;
    for (const expected of [
      "Cut sheet",
      "solo clarinet and piano",
      "Žofie Młynek",
      "№ 4",
      "11:42",
      "of 12:00",
      "Ostermark Wind Prize",
    ]) {
      expect(text).toContain(expected);
    }
    for (const expected of [
      "14 March 2026",
      "plays 3:18",
      "12:34",
      "opening tutti · 12 bars · 0:26",
      "agreed 26 February 2026",
      "9f3a6c1b",
    ]) {
      expect(text).toContain(expected);
    }
    // In the lines that name the cuts and over the joins.
    expect(text).toContain(`end of ${label(7)}`);
    expect(text.match(/Vi–de/g)).toHaveLength(2);
    expect(pdf.hasAllFonts).toBe(true);
  });

  it.each([0, 1, 7])("keeps to one page with %i cuts", async (count) => {
    const pdf = await readPdf(
      await printCutSheet({ ...sheet(count), paper: "Letter", occasion: null, limitSeconds: null }),
    );
    expect(pdf.pages).toHaveLength(1);
    expect(pdf.size).toEqual([612, 792]);
    for (const span of spans.slice(0, count)) expect(pdf.pages[0]).toContain(label(span.to.barIndex));
    expect(pdf.pages[0]).toContain("Tobias Kerr,");
  });
});
