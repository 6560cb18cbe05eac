import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { countBars } from "@/lib/score/count-bars";
import { findSoloPart } from "@/lib/score/find-part";
import { findSilentSpans } from "@/lib/score/silent-spans";
import { readTempoMap } from "@/lib/score/tempo-map";
import { writtenOrder } from "@/lib/score/written-order";
import { findTuttis } from "@/lib/tutti/find-tuttis";
import { corpusFolder, readCorpusFile } from "./corpus-folder";

/*
 * Rests counted by hand: the MusicXML was read measure by measure, the solo part's notes beside the piano's. A bar counts
 * when every note of the solo part in it is a rest. `rests` are the soloist's silences of one whole bar and more, by
 * printed number of the first and last silent bar; `tuttis` those among them that lie long enough for a tutti (a bar and
 * two seconds) and in which the piano plays.
 */
interface Counted {
  readonly file: string;
  readonly bars: number;
  readonly rests: readonly (readonly [first: string, last: string, bars: number])[];
  /** Places in `rests`. */
  readonly tuttis: readonly number[];
  /** What was met on the way. */
  readonly note: string;
}

const counted: readonly Counted[] = [
  {
    file: "solo-piano/mlynarski_op11_1.mxl",
    bars: 261,
    rests: [
      ["1", "16", 16],
      ["60", "61", 2],
      ["64", "65", 2],
      ["117", "130", 14],
      ["209", "210", 2],
      ["213", "214", 2],
    ],
    tuttis: [0, 1, 2, 3, 4, 5],
    note: "Bar 117 has the words tutti and 14; the cadenza begins in the second half of the first beat of bar 131.",
  },
  {
    file: "solo-piano/wieniawski_op22_2.mxl",
    bars: 108,
    rests: [
      ["73", "74", 2],
      ["77", "78", 2],
      ["84", "86", 3],
    ],
    tuttis: [0, 2],
    note: "Bars 77 and 78, two of 2/4 in Allegro con fuoco, last a little less than two seconds.",
  },
  {
    file: "solo-piano/wieniawski_op14_2.mxl",
    bars: 58,
    rests: [["1", "18", 18]],
    tuttis: [0],
    note: "The violin enters on the first beat of bar 19.",
  },
  {
    file: "solo-piano/chopin_065-1-BH-001.mxl",
    bars: 237,
    rests: [
      ["2", "8", 7],
      ["62", "65", 4],
      ["70", "70", 1],
      ["114", "124", 11],
      ["178", "181", 4],
      ["X185", "X185", 1],
    ],
    tuttis: [0, 1, 2, 3, 4, 5],
    note: "The upbeat is numbered 0 and the first full bar 2; an upbeat is no counted bar.",
  },
  {
    file: "songs/berlioz_nuits_d_ete_1_villanelle.mxl",
    bars: 131,
    rests: [
      ["1", "2", 2],
      ["12", "12", 1],
      ["21", "21", 1],
      ["41", "42", 2],
      ["52", "52", 1],
      ["61", "61", 1],
      ["81", "86", 6],
      ["96", "96", 1],
      ["105", "105", 1],
      ["125", "131", 7],
    ],
    tuttis: [0, 3, 6, 9],
    note: "The single bars last less than two seconds.",
  },
  {
    file: "songs/schubert_erlkoenig.mxl",
    bars: 148,
    rests: [
      ["1", "14", 14],
      ["33", "35", 3],
      ["55", "56", 2],
      ["113", "115", 3],
      ["141", "141", 1],
      ["148", "148", 1],
    ],
    tuttis: [0, 1, 2, 3, 4, 5],
    note: "The voice ends in the first half of bar 32 and goes on with the last beat of bar 36.",
  },
];

function read(file: string) {
  const source = readScore(readCorpusFile(file));
  if (!source.ok) throw new Error(`${file}: ${source.problem.kind}`);
  const { score } = source.value;
  return { score, order: writtenOrder(score) };
}

describe.skipIf(corpusFolder === null).each(counted)("$file, counted by hand", ({ file, ...facts }) => {
  it("has as many bars", () => {
    expect(read(file).score.bars).toHaveLength(facts.bars);
  });

  it("has the soloist silent in the same bars", () => {
    const { score, order } = read(file);
    const solo = findSoloPart(score);
    if (!solo) throw new Error("No solo part");
    const found = findSilentSpans(score, order, solo).flatMap(({ from, to }) => {
      const { count, bars } = countBars(score, order, from, to);
      const whole = bars.flatMap(({ barIndex }) => score.bars[barIndex] ?? []).filter((bar) => !bar.isPickup);
      return count === 0 ? [] : [[whole[0]?.label, whole.at(-1)?.label, count]];
    });
    expect(found).toEqual(facts.rests);
  });

  it("has the same tuttis", () => {
    const { score, order } = read(file);
    const found = findTuttis(score, order, readTempoMap(score))
      .filter(({ barCount }) => barCount > 0)
      .map(({ firstBarLabel, lastBarLabel, barCount }) => [firstBarLabel, lastBarLabel, barCount]);
    expect(found).toEqual(facts.tuttis.map((place) => facts.rests[place]));
  });
});
