import { findCadences } from "@/lib/harmony/find-cadences";
import { findChords } from "@/lib/harmony/find-chords";
import { findHypermetre } from "@/lib/harmony/find-hypermetre";
import { findLines } from "@/lib/harmony/find-lines";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { findParallels } from "@/lib/harmony/find-parallels";
import { findPhrases } from "@/lib/harmony/find-phrases";
import { findTexture } from "@/lib/harmony/find-texture";
import { readScore } from "@/lib/musicxml/read-score";
import type { Score } from "@/lib/score/score";
import {
  addCounts,
  type HarmonyCounts,
  type MeasuredPiece,
  measureHarmony,
  noCounts,
  percent,
} from "../corpus/analysis/measure-harmony";
import { writeSyntheticScore } from "./synthetic-score";

type Row = Record<string, string | number>;

function writeRow(what: string, half: string, counts: HarmonyCounts): Row {
  return {
    what,
    half,
    quarters: counts.quarters,
    "key %": percent(counts.keyRight, counts.quarters),
    "profile key %": percent(counts.profileKeyRight, counts.quarters),
    "key or near %": percent(counts.keyNear, counts.quarters),
    "called clear %": percent(counts.clear, counts.quarters),
    "right when clear %": percent(counts.clearRight, counts.clear),
    beats: counts.beats,
    "root %": percent(counts.rootRight, counts.beats),
    "root and quality %": percent(counts.chordRight, counts.beats),
  };
}

function writeTotals(pieces: readonly MeasuredPiece[]): Row[] {
  const total = (what: string, half: string, wanted: (piece: MeasuredPiece) => boolean) => {
    const counts = pieces.filter(wanted).reduce((sum, piece) => addCounts(sum, piece.counts), noCounts);
    return writeRow(what, half, counts);
  };
  return [
    total("songs", "held-out", ({ isSong, half }) => isSong && half === "held-out"),
    total("songs", "tuned-on", ({ isSong, half }) => isSong && half === "tuned-on"),
    total("songs", "both", ({ isSong }) => isSong),
    total("all pieces", "both", () => true),
  ];
}

function analyse(score: Score): Record<string, number> {
  const spent: Record<string, number> = {};
  const time = <T>(name: string, work: () => T): T => {
    const start = performance.now();
    const result = work();
    spent[name] = Math.round(performance.now() - start);
    return result;
  };
  const keys = time("keys ms", () => findLocalKeys(score));
  const chords = time("chords ms", () => findChords(score, keys));
  const cadences = time("cadences ms", () => findCadences(score, chords));
  const phrases = time("phrases ms", () => findPhrases(score, cadences));
  time("hypermetre ms", () => [findHypermetre(score, phrases, 2), findHypermetre(score, phrases, 4)]);
  time("lines ms", () => findLines(score));
  time("texture ms", () => findTexture(score));
  time("parallels ms", () => findParallels(score));
  return spent;
}

/** The fastest of three rounds, by all analyses together. */
function measureSpeed(barCount: number): Row {
  const read = readScore(new TextEncoder().encode(writeSyntheticScore(barCount)));
  if (!read.ok) throw new Error(read.problem.kind);
  const rounds = [1, 2, 3].map(() => analyse(read.value.score));
  const sum = (round: Record<string, number>) => Object.values(round).reduce((all, spent) => all + spent, 0);
  const [fastest] = rounds.toSorted((a, b) => sum(a) - sum(b));
  return { what: `${barCount} bars, solo and piano`, "together ms": sum(fastest ?? {}), ...fastest };
}

/** Keys and chords against human analyses, piece by piece; then how long the analyses take. */
export const benchmark = {
  name: "Harmony: keys per quarter note and chords per beat against human analyses",
  async run(): Promise<Row[]> {
    const pieces = measureHarmony();
    return [
      ...pieces.map(({ name, half, counts }) => writeRow(name, half, counts)),
      ...writeTotals(pieces),
      measureSpeed(300),
      measureSpeed(600),
    ];
  },
};
