import { describe, expect, it } from "vitest";
import { layOutEdition } from "@/lib/engrave/pages/lay-out-edition";
import { pageShapes } from "@/lib/engrave/pdf/page-shape";
import { markKinds, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { readScore } from "@/lib/musicxml/read-score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { cut } from "../../musicxml/cut/small-source";
import { markEverything } from "./marked-edition";
import { overlaps, pastMargins, textsOnPages } from "./words-on-page";

const sourceMusicXml = new TextEncoder().encode(writeSoloAndReduction());
const read = readScore(sourceMusicXml);
if (!read.ok) throw new Error(read.problem.kind);
const { score } = read.value;

const input = {
  sourceMusicXml,
  partRoles: Object.fromEntries(score.parts.map(({ id, role }) => [id, role])),
  cuts: [cut("9 to 21"), cut("85+2 to 97+2")],
  marks: markEverything(score, 6),
  titleBlock: {
    title: "Concertino",
    movement: "in E♭, first movement",
    composer: "Žofie Młynek",
    soloInstrument: "Clarinet in B♭",
    editionNumber: 4,
    frozenOn: "2026-02-26",
    hash: "9f3a6c1b00ddeeff",
    players: [{ name: "Ottilie Venn", role: "piano", agreedOn: "2026-02-25" }],
  },
};

describe("words on the demo's pages, with marks everywhere", { timeout: 120_000 }, () => {
  it.each([
    { reader: "pianist" },
    { reader: "pianist", paper: "tablet" },
    { reader: "pianist", paper: "Letter", cuts: "shown" },
    { reader: "soloist", marks: [...markKinds] },
  ])("keep apart and inside the margins: %o", async (asked) => {
    const options = printOptionsSchema.parse(asked);
    const pages = await layOutEdition({ ...input, options });
    const texts = await textsOnPages(pages);
    expect(texts.length).toBeGreaterThan(60);
    expect(pastMargins(texts, pages.width, pageShapes[options.paper].side)).toEqual([]);
    expect(overlaps(texts)).toEqual([]);
  });
});

describe("what tells so", () => {
  const text = (words: string, left: number, top: number) => ({
    ...{ page: 1, text: words, left, right: left + 50 },
    ...{ top, bottom: top + 8 },
  });

  it("finds what passes a margin and what runs into another", () => {
    expect(pastMargins([text("a", 20, 0), text("b", 100, 0), text("c", 530, 0)], 595, 42)).toHaveLength(2);
    expect(overlaps([text("a", 100, 0), text("b", 140, 4), text("c", 100, 20)])).toEqual([
      'page 1: "a" and "b" near 100, 0',
    ]);
  });
});
