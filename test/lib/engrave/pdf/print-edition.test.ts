import { describe, expect, it } from "vitest";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
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

const input: PrintInput = {
  sourceMusicXml,
  partRoles,
  cuts: [cut("9 to 21"), cut("85+2 to 97+2")],
  reader: "pianist",
  paper: "A4",
  titleBlock: {
    title: "Concertino & <Rondo>",
    movement: "in E♭, first movement",
    composer: "Žofie Młynek",
    soloInstrument: "Clarinet in B♭",
    editionNumber: 4,
    frozenOn: "2026-02-26",
    hash: "9f3a6c1b00ddeeff",
    players: [
      { name: "Ottilie Venn", role: "piano", agreedOn: "2026-02-25" },
      { name: "Tobias Kerr", role: "clarinet", agreedOn: "2026-02-26" },
    ],
  },
};
const labelOf = (barIndex: number): string => score.bars[barIndex]?.label ?? "";

describe("printEdition", () => {
  it("prints the pianist's score on A4", async () => {
    const progress: number[] = [];
    const pdf = await readPdf(await printEdition(input, (done) => progress.push(done)));
    const [first = ""] = pdf.pages;
    expect(pdf.size.map(Math.round)).toEqual([595, 842]);
    for (const text of [
      "Concertino & <Rondo>",
      "Žofie Młynek",
      "Piano, with clarinet in",
      "Edition № 4, 26 February 2026",
      "Ottilie Venn, piano, agreed 25 February 2026",
      "Tobias Kerr, clarinet, agreed 26 February 2026",
      "9f3a6c1b",
    ]) {
      expect(first).toContain(text);
    }
    for (const [index, page] of pdf.pages.entries()) {
      expect(page).toContain("Concertino & <Rondo> · Edition № 4 · 9f3a6c1b");
      expect(page).toContain(`${index + 1} of ${pdf.pages.length}`);
    }
    expect(pdf.info).toMatchObject({ Title: "Concertino & <Rondo> · Edition № 4", Author: "Žofie Młynek" });
    expect(pdf.language).toBe("en");
    expect(pdf.alternatives[0]).toBe("Bars 0 to 4");
    expect(pdf.hasAllFonts).toBe(true);
    expect(pdf.fontNames.join(" ")).toMatch(/Petrona[\s\S]*Leipzig|Leipzig[\s\S]*Petrona/);
    expect(progress.at(-1)).toBe(1);
  });

  it("marks the joins, with the numbers of the source", async () => {
    const pdf = await readPdf(await printEdition(input));
    const text = pdf.pages.join(" ");
    expect(text.match(/Vi–/g)).toHaveLength(2);
    expect(text.match(/–de/g)).toHaveLength(2);
    // Numbers stand alone between other texts; after the first join the count goes on as in the source.
    const numbers = text.split(/\s+/).filter((word) => score.bars.some(({ label }) => label === word));
    expect(numbers).toContain(labelOf(20));
    // Lower numbers may be those of pages.
    for (const barIndex of [17, 18, 19, 86, 90, 95]) expect(numbers).not.toContain(labelOf(barIndex));
    expect(text).toContain(`Vi–de ${labelOf(96)}`);
  });

  it("prints the solo part alone on Letter, long rests as one", async () => {
    const pdf = await readPdf(await printEdition({ ...input, reader: "soloist", paper: "Letter" }));
    const pianist = await readPdf(await printEdition({ ...input, paper: "Letter" }));
    expect(pdf.size).toEqual([612, 792]);
    expect(pdf.pages.length).toBeLessThan(pianist.pages.length);
    expect(pdf.pages[0]).toContain("Clarinet in B ♭");
    expect(pdf.pages.join(" ")).toMatch(/Vi–[\s\S]*–de/);
    expect(pdf.info.Subject).toBe("Solo part");
  });

  it("prints an edition without cuts, and a source without roles", async () => {
    const pdf = await readPdf(await printEdition({ ...input, cuts: [], partRoles: {}, reader: "soloist" }));
    expect(pdf.pages.join(" ")).not.toContain("Vi–");
    expect(pdf.pages.length).toBeGreaterThan(1);
  });
});
