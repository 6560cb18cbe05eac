import process from "node:process";
import { endEngraver } from "@/lib/engrave/engraver";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import type { PrintedEdition, PrintInput } from "@/lib/engrave/pdf/print-input";
import { defaultPrintOptions, type PrintReader } from "@/lib/engrave/pdf/print-options";
import { readScore } from "@/lib/musicxml/read-score";
import { corpusScores, readCorpusFile } from "../corpus/corpus-folder";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

/** So many bars of the dense score that is made in code fill forty pages of the pianist's. */
const fortyPages = 600;

/** The longest concerto movement and the densest showpiece at hand. */
const real = [...corpusScores("pairs"), ...corpusScores("solo-piano")].filter((file) =>
  /chopin|wieniawski_op22_1|wieniawski_op4|mlynarski|dobrzynski/.test(file),
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

/** Seconds of processor of the whole process, threads that collect and compile included. */
async function secondsOf(run: () => Promise<unknown>): Promise<number> {
  const before = process.cpuUsage();
  await run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** The same edition under another hash: it is laid out anew. */
const anew = (input: PrintInput, hash: string): PrintInput => ({
  ...input,
  titleBlock: { ...input.titleBlock, hash: hash.repeat(64) },
});

async function measure(music: string, input: PrintInput): Promise<Row> {
  endEngraver();
  let printed: PrintedEdition | null = null;
  let steps = 0;
  const print = async (each: PrintInput) => {
    printed = await printEdition(each, () => {
      steps += 1;
    });
  };
  const first = await secondsOf(() => print(anew(input, "1")));
  steps = 0;
  const again = await secondsOf(() => print(anew(input, "2")));
  const reports = steps;
  const seen = await secondsOf(() => print(anew(input, "2")));
  if (!printed) throw new Error(`${music} was not printed`);
  const { pdf, pageCount }: PrintedEdition = printed;
  const of40 = (seconds: number) => Number(((40 * seconds) / pageCount).toFixed(1));
  return {
    music,
    reader: input.options.reader,
    pages: pageCount,
    "processor s, new thread": Number(first.toFixed(1)),
    again: Number(again.toFixed(1)),
    "pages seen": Number(seen.toFixed(1)),
    "s for 40 pages, new thread": of40(first),
    "40 again": of40(again),
    "KB a page": Math.round(pdf.length / 1024 / pageCount),
    "reports of progress": reports,
  };
}

/**
 * Processor time of the PDF of an edition in the thread that engraves: reading, engraving, page turns and drawing. The first row
 * is that of a new process, which compiles the engraver; "new thread" starts it, "again" is any other job, and "pages seen" one
 * whose pages were looked at before.
 */
export const benchmark = {
  name: "PDF of an edition, processor seconds of the whole process",
  async run(): Promise<Row[]> {
    const dense = new TextEncoder().encode(writeSyntheticScore(fortyPages));
    const rows: Row[] = [];
    // The first once more: only then the process has compiled the engraver.
    for (const file of [...real.slice(0, 1), ...real])
      rows.push(await measure(file, inputFor(file, readCorpusFile(file), "pianist")));
    rows.push(await measure(`made in code, ${fortyPages} bars`, inputFor("Synthetic", dense, "pianist")));
    rows.push(await measure(`made in code, ${fortyPages} bars`, inputFor("Synthetic", dense, "soloist")));
    endEngraver();
    return rows;
  },
};
