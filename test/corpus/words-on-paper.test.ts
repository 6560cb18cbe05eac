import { describe, expect, it } from "vitest";
import { layOutEdition } from "@/lib/engrave/pages/lay-out-edition";
import { pageShapes } from "@/lib/engrave/pdf/page-shape";
import { markKinds, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { readScore } from "@/lib/musicxml/read-score";
import { markEverything } from "../lib/engrave/pdf/marked-edition";
import { overlaps, pastMargins, textsOnPages } from "../lib/engrave/pdf/words-on-page";
import { corpusScores, readCorpusFile } from "./corpus-folder";

const wanted = /wieniawski_op(22_1|4)\.|mlynarski_op11|dobrzynski|erlkoenig/;
const files = corpusScores("solo-piano", "songs").filter((file) => wanted.test(file));

function inputOf(file: string) {
  const sourceMusicXml = readCorpusFile(file);
  const read = readScore(sourceMusicXml);
  if (!read.ok) throw new Error(`${file}: ${read.problem.kind}`);
  const { score } = read.value;
  return {
    sourceMusicXml,
    partRoles: Object.fromEntries(score.parts.map(({ id, role }) => [id, role])),
    cuts: [],
    marks: markEverything(score, 4),
    titleBlock: {
      ...{ title: file, movement: null, composer: null, soloInstrument: null },
      ...{ editionNumber: 1, frozenOn: "2026-01-01", hash: "", players: [] },
    },
  };
}

describe.each(files)("words on the pages of %s", { timeout: 240_000 }, (file) => {
  it.each([{ reader: "pianist" }, { reader: "soloist", marks: [...markKinds] }])(
    "keep apart and inside the margins: %o",
    async (asked) => {
      const options = printOptionsSchema.parse(asked);
      const pages = await layOutEdition({ ...inputOf(file), options });
      const texts = await textsOnPages(pages);
      expect(pastMargins(texts, pages.width, pageShapes[options.paper].side)).toEqual([]);
      expect(overlaps(texts)).toEqual([]);
    },
  );
});
