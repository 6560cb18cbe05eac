import process from "node:process";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPassages } from "@/lib/hands/find-passages";
import { usualHands } from "@/lib/hands/hands-profile";
import { readScore } from "@/lib/musicxml/read-score";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { buildScore } from "../builders/build-score";
import { corpusScores, readCorpusFile } from "../corpus/corpus-folder";
import { percentile } from "./percentile";

type Row = Record<string, string | number>;

const lengths = [150, 300, 600, 1200];

/** Where the tempo slider is put, one after the other: shares of the tempo as read. */
const paces = Array.from({ length: 21 }, (_, index) => 0.5 + index / 20);

/** Bars of four kinds in turn: chords in sixteenths, octaves, a stride bass under a run, chords broken in 32nds. */
const kinds: readonly (readonly [right: string, left: string])[] = [
  [bar("c5+e5+g5:s d5+f5+a5:s", 8), bar("c2+c3:q g2+g3:q", 2)],
  [bar("c5+c6:e e5+e6:e", 4), bar("c3+g3+e4:q f2+c3+a3:q", 2)],
  [bar("c5:s d5:s e5:s f5:s g5:s f5:s e5:s d5:s", 2), bar("c2+c3:e g3+c4+e4:e", 4)],
  [bar("g5+c6:h e5+c6:h", 1), bar("c3:t g3+e4:t", 16)],
];

function bar(tokens: string, times: number): string {
  return Array.from({ length: times }, () => tokens).join(" ");
}

/** A dense reduction, with about 40 notes a bar. */
function compose(barCount: number): Score {
  const line = (side: 0 | 1) =>
    Array.from({ length: barCount }, (_, index) => (kinds[index % kinds.length] ?? ["", ""])[side]).join(
      " | ",
    );
  return buildScore({
    ...{ metre: "4/4", tempo: 112, solo: `R*${barCount}` },
    piano: [line(0), line(1)],
  });
}

function processorMs(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function measure(music: string, score: Score): Row {
  const map = readTempoMap(score);
  const times = Array.from({ length: 3 }, () => processorMs(() => assessHands(score, map, usualHands)));
  const demands = assessHands(score, map, usualHands).bars;
  const slides = paces.map((pace) =>
    processorMs(() => findPassages(demands.map((demand) => barAtTempo(demand, pace)))),
  );
  const notes = score.parts.find(({ role }) => role === "reduction")?.notes.length ?? 0;
  return {
    music,
    bars: demands.length,
    "notes a bar": Math.round(notes / demands.length),
    "first ms": Math.round(times[0] ?? 0),
    "best ms": Math.round(Math.min(...times)),
    "best ms for 600 bars": Math.round((600 * Math.min(...times)) / demands.length),
    "tempo slider ms, median": Number(percentile(slides, 0.5).toFixed(1)),
    "tempo slider ms, most": Number(Math.max(...slides).toFixed(1)),
  };
}

function readReduction(file: string): Score | null {
  const read = readScore(readCorpusFile(file));
  const hasReduction = read.ok && read.value.score.parts.some(({ role }) => role === "reduction");
  return hasReduction ? read.value.score : null;
}

/** Processor time on one thread: a whole piece under one pair of hands, and one step of the tempo slider. */
export const benchmark = {
  name: "Hands, processor milliseconds on one thread",
  async run(): Promise<Row[]> {
    // The first use of a function is slower than every other.
    measure("warm", compose(50));
    const rows = lengths.map((count) => measure("made in code", compose(count)));
    for (const file of corpusScores("pairs", "solo-piano")) {
      const score = readReduction(file);
      if (score) rows.push(measure(file, score));
    }
    return rows;
  },
};
