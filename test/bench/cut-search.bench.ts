import { assessJoin } from "@/lib/cuts/join/assess-join";
import { type Heard, listen } from "@/lib/cuts/join/listen";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import { readScore } from "@/lib/musicxml/read-score";
import { noQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { corpusScores } from "../corpus/corpus-folder";
import { readCorpusScore } from "./succession-choices";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

/** Processor time of this process, so that other work on the machine counts less. */
function measure<T>(work: () => T): { value: T; milliseconds: number } {
  const before = process.cpuUsage();
  const value = work();
  const { user, system } = process.cpuUsage(before);
  return { value, milliseconds: Math.round((user + system) / 1000) };
}

const at = (barIndex: number) => ({ barIndex, offset: noQuarters });

function search(heard: Heard, from: number, to: number, resolution: "bars" | "beats") {
  return measure(() => findCuts(heard, { from: at(from), to: at(to) }, { resolution }));
}

/** Without its soloist's notes the whole piece is one tutti: the most pairs that a search can have. */
function silenceSolo(score: Score): Score {
  const parts = score.parts.map((part) =>
    part.role === "solo" ? { ...part, role: "other" as const } : part,
  );
  return { ...score, parts };
}

function measureScore(what: string, score: Score): Row {
  const bars = score.bars.length;
  const silent = silenceSolo(score);
  const first = measure(() => listen(silent));
  const from = Math.max(1, Math.floor(bars / 3));
  const beats = search(first.value, from, Math.min(bars - 1, from + 60), "beats");
  const again = search(first.value, from, Math.min(bars - 1, from + 60), "beats");
  const fresh = listen(silent);
  const whole = search(fresh, 1, bars - 1, "bars");
  const [best] = whole.value;
  const judged = measure(() => (best ? assessJoin(fresh, best) : null));
  return {
    what,
    bars,
    parts: score.parts.length,
    "listen ms": first.milliseconds,
    "60 bars by beats ms": beats.milliseconds,
    "again ms": again.milliseconds,
    "whole piece by bars ms": whole.milliseconds,
    "one join ms": judged.milliseconds,
    found: `${beats.value.length} and ${whole.value.length}`,
  };
}

function readSynthetic(bars: number): Score {
  const read = readScore(new TextEncoder().encode(writeSyntheticScore(bars)));
  if (!read.ok) throw new Error(read.problem.kind);
  return read.value.score;
}

/** How long it takes to find cuts, in processor time of one core. */
export const benchmark = {
  name: "Searching for cuts: 60 bars from beat to beat, a whole piece from bar line to bar line",
  async run(): Promise<Row[]> {
    return [
      measureScore("made in code", readSynthetic(600)),
      ...corpusScores("pairs", "solo-piano", "full-score")
        .filter((file) => /chopin_op11|wieniawski_op22_1|beethoven_op67_1\.mxl/.test(file))
        .map((file) => measureScore(file, readCorpusScore(file))),
    ];
  },
};
