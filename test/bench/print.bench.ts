import process from "node:process";
import { drawEdition } from "@/lib/engrave/pdf/draw-edition";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
import { defaultPrintOptions, type PrintReader } from "@/lib/engrave/pdf/print-options";
import { openEngraver } from "@/lib/engrave/toolkit";
import { readScore } from "@/lib/musicxml/read-score";
import { corpusScores, readCorpusFile } from "../corpus/corpus-folder";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

/** So many bars of the dense score that is made in code fill forty pages of the pianist's. */
const fortyPages = 600;

/** The longest concerto movement and the densest showpiece at hand. */
const real = [...corpusScores("pairs"), ...corpusScores("solo-piano")].filter((file) =>
  /chopin_op11|wieniawski_op4/.test(file),
);

function inputFor(title: string, sourceMusicXml: Uint8Array, reader: PrintReader): PrintInput {
  const read = readScore(sourceMusicXml);
  if (!read.ok) throw new Error(`${title}: ${read.problem.kind}`);
  const partRoles = Object.fromEntries(read.value.score.parts.map(({ id, role }) => [id, role]));
  const titleBlock = {
    ...{ title, movement: null, composer: null, soloInstrument: null },
    ...{ editionNumber: 1, frozenOn: "2026-01-01", hash: "0".repeat(64), players: [] },
  };
  return { sourceMusicXml, partRoles, cuts: [], options: defaultPrintOptions(reader), titleBlock };
}

async function measure(music: string, input: PrintInput): Promise<Row> {
  // An engraver for each: its memory never shrinks. Started before, as the server's is.
  const { toolkit, memory } = await openEngraver();
  let steps = 0;
  const before = process.cpuUsage();
  const { pdf, pageCount } = await drawEdition(toolkit, input, () => {
    steps += 1;
  });
  const { user, system } = process.cpuUsage(before);
  const seconds = (user + system) / 1e6;
  return {
    music,
    reader: input.options.reader,
    pages: pageCount,
    "processor s": Number(seconds.toFixed(1)),
    "s for 40 pages": Number(((40 * seconds) / pageCount).toFixed(1)),
    "KB a page": Math.round(pdf.length / 1024 / pageCount),
    "engraver MB": Math.round(memory() / 2 ** 20),
    "reports of progress": steps,
  };
}

/** Processor time of the PDF of an edition, all of it on one thread: engraving, page turns and drawing. */
export const benchmark = {
  name: "PDF of an edition, processor seconds on one thread",
  async run(): Promise<Row[]> {
    const dense = new TextEncoder().encode(writeSyntheticScore(fortyPages));
    const rows = [
      await measure(`made in code, ${fortyPages} bars`, inputFor("Synthetic", dense, "pianist")),
      await measure(`made in code, ${fortyPages} bars`, inputFor("Synthetic", dense, "soloist")),
    ];
    for (const file of real) rows.push(await measure(file, inputFor(file, readCorpusFile(file), "pianist")));
    return rows;
  },
};
