import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

const growth = [100, 300, 600, 1200, 2000];

/** Milliseconds of the fastest of `rounds`: what the work costs when nothing else runs. */
function fastest(rounds: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

function measureReading(barCount: number): { row: Row; milliseconds: number } {
  const text = writeSyntheticScore(barCount);
  const bytes = new TextEncoder().encode(text);
  let notes = 0;
  const milliseconds = fastest(6, () => {
    const read = readScore(bytes);
    if (!read.ok) throw new Error(read.problem.kind);
    notes = read.value.score.parts.reduce((sum, part) => sum + part.notes.length, 0);
  });
  const tree = fastest(3, () => {
    if (!readTree(bytes).ok) throw new Error("tree");
  });
  const row = {
    what: `read ${barCount} bars`,
    megabytes: Number((bytes.length / 1e6).toFixed(2)),
    notes,
    "readScore ms": Math.round(milliseconds),
    "µs per bar": Math.round((milliseconds * 1000) / barCount),
    "readTree ms": Math.round(tree),
  };
  return { row, milliseconds };
}

async function measureEngraver(barCount: number): Promise<number> {
  const toolkit = new VerovioToolkit(await createVerovioModule({ printErr: () => undefined }));
  toolkit.loadData(writeSyntheticScore(8));
  const text = writeSyntheticScore(barCount);
  return fastest(2, () => {
    if (!toolkit.loadData(text)) throw new Error("the engraver refused the score");
  });
}

/** Reading against the engraving library's own loading of the same text in the same run, and growth with length. */
export const benchmark = {
  name: "Reading a solo part with a piano reduction",
  async run(): Promise<Row[]> {
    // Compiles what is measured, so that the shortest score does not pay for it.
    measureReading(300);
    const measured = growth.map((barCount) => ({ barCount, ...measureReading(barCount) }));
    const read = measured.find(({ barCount }) => barCount === 600)?.milliseconds ?? Number.NaN;
    const engraver = await measureEngraver(600);
    return [
      ...measured.map(({ row }) => row),
      {
        what: "engraver loads 600 bars",
        "engraver ms": Math.round(engraver),
        "times slower": Number((engraver / read).toFixed(1)),
      },
    ];
  },
};
