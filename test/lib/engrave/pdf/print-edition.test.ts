import { describe, expect, it } from "vitest";
import { layOutEdition } from "@/lib/engrave/pages/lay-out-edition";
import { previewEdition } from "@/lib/engrave/pages/preview-edition";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import type { PrintedEdition, PrintInput } from "@/lib/engrave/pdf/print-input";
import { defaultPrintOptions } from "@/lib/engrave/pdf/print-options";
import { readScore } from "@/lib/musicxml/read-score";
import type { PartRole } from "@/lib/score/part";
import { noQuarters } from "@/lib/score/quarters";
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
  options: defaultPrintOptions("pianist"),
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
const forSoloist = defaultPrintOptions("soloist");
const lettered = new Set(
  score.parts.flatMap(({ directions }) =>
    directions.filter(({ kind }) => kind === "rehearsal").map(({ barIndex }) => barIndex),
  ),
);
const labelOf = (barIndex: number): string => score.bars[barIndex]?.label ?? "";

const progress: number[] = [];
/** The pianist's score, as several tests look at it; printed once. */
let pianists: Promise<PrintedEdition> | null = null;
const printForPianist = (): Promise<PrintedEdition> => {
  pianists ??= printEdition(input, (done) => progress.push(done));
  return pianists;
};

describe("printEdition", () => {
  it("prints the pianist's score on A4", async () => {
    const pdf = await readPdf((await printForPianist()).pdf);
    const [first = ""] = pdf.pages;
    expect(pdf.size.map(Math.round)).toEqual([595, 842]);
    for (const text of [
      "Concertino & <Rondo>",
      "Žofie Młynek",
      "Piano, with clarinet in",
      "Edition № 4, 26 February 2026",
      "Ottilie Venn, piano, agreed 25 February 2026",
      "Tobias Kerr, clarinet, agreed 26 February 2026",
      "9f3a6c1b00ddeeff",
    ]) {
      expect(first).toContain(text);
    }
    for (const [index, page] of pdf.pages.entries()) {
      expect(page).toContain("Concertino & <Rondo> · Edition № 4 · 9f3a6c1b00ddeeff");
      expect(page).toContain(`page ${index + 1} of ${pdf.pages.length}`);
    }
    expect(pdf.info).toMatchObject({ Title: "Concertino & <Rondo> · Edition № 4", Author: "Žofie Młynek" });
    expect(pdf.language).toBe("en");
    expect(pdf.alternatives[0]).toMatch(/^Bars 0 to \d+$/);
    expect(pdf.hasAllFonts).toBe(true);
    expect(pdf.fontNames.join(" ")).toMatch(/Petrona[\s\S]*Leipzig|Leipzig[\s\S]*Petrona/);
    expect(progress.at(-1)).toBe(1);
    expect(progress).toEqual(progress.toSorted((a, b) => a - b));
  });

  it("marks the joins, with the numbers of the source", async () => {
    const pdf = await readPdf((await printForPianist()).pdf);
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
    const pdf = await readPdf(
      (await printEdition({ ...input, options: { ...forSoloist, paper: "Letter" } })).pdf,
    );
    expect(pdf.size).toEqual([612, 792]);
    expect(pdf.pages.length).toBeLessThan((await printForPianist()).pageCount);
    expect(pdf.pages[0]).toContain("Clarinet in B ♭");
    expect(pdf.pages.join(" ")).toMatch(/Vi–[\s\S]*–de/);
    expect(pdf.info.Subject).toBe("Solo part");
  });

  it("prints an edition without cuts, and a source without roles", async () => {
    const pdf = await readPdf(
      (await printEdition({ ...input, cuts: [], partRoles: {}, options: forSoloist })).pdf,
    );
    expect(pdf.pages.join(" ")).not.toContain("Vi–");
    expect(pdf.pages.length).toBeGreaterThan(1);
  });

  it("tells how each page is turned, and prints it under the page", async () => {
    const printed = await printForPianist();
    const pdf = await readPdf(printed.pdf);
    expect(printed.pageCount).toBe(pdf.pages.length);
    expect(printed.turns.map(({ page }) => page)).toEqual(pdf.pages.slice(1).map((_, index) => index + 1));
    for (const { page, sign, barLabel, sentence, grade } of printed.turns) {
      // A rehearsal letter stands where the number would.
      const first = score.bars.findIndex(({ label }) => label === barLabel);
      if (!lettered.has(first)) expect(pdf.pages[page]?.split(/\s+/)).toContain(barLabel);
      const text = pdf.pages[page - 1] ?? "";
      expect(text.includes("V.S.")).toBe(sign === "V.S.");
      expect(sign === "V.S.").toBe(grade !== "easy");
      expect(sentence).toContain(`Page ${page}, before bar ${barLabel}`);
    }
    expect(pdf.pages.at(-1)).not.toContain("V.S.");
    expect(printed.turns.flatMap(({ moments }) => moments[0]?.hands.map(({ hand }) => hand) ?? [])).toContain(
      "left hand",
    );
  });

  it("goes by the duo's tempo when it weighs a turn", async () => {
    const pinned = score.bars.findIndex(({ label }) => label === "45");
    const secondsAt = async (quartersPerMinute: number) => {
      const tempo = { tempi: [{ at: { barIndex: 0, offset: noQuarters }, quartersPerMinute }] };
      const { turns } = await printEdition({ ...input, options: forSoloist, tempo, pinnedBars: [pinned] });
      return turns.find(({ barLabel }) => barLabel === "45")?.freeSeconds ?? 0;
    };
    const slow = await secondsAt(40);
    expect(slow).toBeGreaterThan(10);
    expect(slow / (await secondsAt(160))).toBeCloseTo(4);
  });

  it("begins a page with a pinned bar; one that is cut pins nothing", async () => {
    const own = (await printForPianist()).turns.map(({ barId }) => barId);
    const pinned = score.bars.findIndex(({ id, index }) => index > 40 && !own.includes(id));
    const printed = await printEdition({ ...input, pinnedBars: [pinned, 12] });
    expect(printed.turns.map(({ barId }) => barId)).toContain(score.bars[pinned]?.id);
    expect((await readPdf(printed.pdf)).pages).toHaveLength(printed.pageCount);
  });

  it.each([
    ["facing-right", 1],
    ["facing-left", 0],
  ] as const)("turns the right-hand pages of a book only: %s", async (sides, odd) => {
    const options = { ...forSoloist, sides };
    const { turns, pageCount } = await printEdition({ ...input, options, cuts: [] });
    expect(turns.every(({ page }) => page % 2 === odd && page < pageCount)).toBe(true);
    expect(turns).toHaveLength(Math.floor((pageCount - 1 + odd) / 2));
  });

  it("gives the same pages as pictures, shaped for a tablet", async () => {
    const options = { ...input.options, paper: "tablet", sides: "facing-right" } as const;
    const laidOut = await layOutEdition({ ...input, options });
    const printed = await printEdition({ ...input, options });
    expect(laidOut.width / laidOut.height).toBe(3 / 4);
    expect(laidOut.pages).toHaveLength(printed.pageCount);
    // A tablet shows one page after the other, whatever was asked for.
    expect(laidOut.pages.flatMap(({ turn }) => turn ?? [])).toEqual(printed.turns);
    expect(printed.turns).toHaveLength(printed.pageCount - 1);
    for (const { systems } of laidOut.pages) {
      expect(systems.length).toBeGreaterThan(0);
      for (const { x, y, width, height, system } of systems) {
        expect(system.svg).toMatch(/^<svg/);
        expect(Math.min(x, y)).toBeGreaterThan(0);
        expect([x + width < laidOut.width, y + height < laidOut.height]).toEqual([true, true]);
      }
    }
    const bars = laidOut.pages.flatMap(({ systems }) => systems.flatMap(({ system }) => system.bars));
    expect(new Set(bars.map(({ barIndex }) => barIndex)).size).toBe(bars.length);
  });

  it("shows its pages before they are printed: the same turns and bars, drawn without any text", async () => {
    const printed = await printEdition({ ...input, options: forSoloist });
    const { pages, width, height } = await previewEdition({ ...input, options: forSoloist });
    expect([width, height]).toEqual([595.28, 841.89]);
    expect(pages.flatMap(({ turn }) => turn ?? [])).toEqual(printed.turns);
    expect(pages).toHaveLength(printed.pageCount);
    for (const { svg } of pages) {
      expect(svg).toMatch(/^<svg [^>]*viewBox="0 0 595.28 841.89"/);
      expect(svg).not.toMatch(/<text|<style|<script|font-family/);
      const ids = [...svg.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const used = [...svg.matchAll(/ href="#([^"]*)"/g)].map(([, id]) => id);
      expect(used.filter((id) => !ids.includes(id))).toEqual([]);
    }
  });

  it("leaves the cut bars on the page when they are to be shown", async () => {
    const options = { ...forSoloist, cuts: "shown" } as const;
    const { pages, bars } = await previewEdition({ ...input, options });
    expect(bars.map(({ label }) => label)).toEqual(score.bars.map(({ label }) => label));
    expect(pages.at(-1)?.systems.at(-1)?.lastBar.label).toBe(score.bars.at(-1)?.label);
  });
});
