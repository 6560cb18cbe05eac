import { hashText } from "@/lib/edition/hash-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPassages } from "@/lib/hands/find-passages";
import { handPresets } from "@/lib/hands/hand-presets";
import { readScore } from "@/lib/musicxml/read-score";
import { type BarEvent, inOrder, isRest, withPitches } from "@/lib/rewrites/bar-event";
import { barSpanOf, barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { beatsOf } from "@/lib/rewrites/fidelity";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { beatOf } from "@/lib/score/beat-of";
import { compareQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { rewritePassage } from "@/lib/study/rewrite-passage";
import { readCorpusFile } from "./corpus-folder";
import {
  addHeard,
  type Heard,
  hearBar,
  nothingHeard,
  type OrchestraBar,
  readOrchestraBar,
} from "./heard-of-orchestra";

/** A reduction beside the orchestra that it reduces. */
export interface Pair {
  readonly name: string;
  readonly reduction: string;
  readonly full: string;
  /** The melody as somebody wrote it out, in the bars of the full score; null: the orchestra's top line is taken. */
  readonly melody: string | null;
  /** Index of the full score's bar less that of the reduction's. */
  readonly offset: number;
}

export const pairs: readonly Pair[] = [
  {
    name: "symphony, first movement",
    reduction: "pairs/haydn_104_1_reduction.mxl",
    full: "full-score/haydn_104_1.mxl",
    melody: "full-score/haydn_104_1_melody.mxl",
    offset: 1,
  },
  {
    name: "chorus with orchestra",
    reduction: "pairs/moniuszko_ruiny_vocal_score.mxl",
    full: "pairs/moniuszko_ruiny_full.mxl",
    melody: null,
    offset: -1,
  },
];

/** Whose hands, and how fast against the print, so that enough is awkward. */
export interface Setting {
  readonly hands: string;
  readonly pace: number;
}

export const settings: readonly Setting[] = [
  { hands: "small hands", pace: 1 },
  { hands: "usual hands", pace: 1.5 },
];

/** What of the orchestra is heard in bars that are awkward, played in four ways. */
export interface PairFigures {
  readonly passages: number;
  /** For which something easier was offered. */
  readonly rewritten: number;
  readonly bars: number;
  readonly difficulty: { readonly before: number; readonly after: number };
  readonly print: Heard;
  readonly rewrite: Heard;
  /** Of the print every other note is left out, counted in time and from the lowest. */
  readonly everyOther: Heard;
  /** Each chord without its outer notes. */
  readonly innerOnly: Heard;
}

function open(file: string): Score {
  const read = readScore(readCorpusFile(file));
  if (!read.ok) throw new Error(`${file}: ${read.problem.kind}`);
  return read.value.score;
}

/** Figures of one pair in one setting: the best rewrite of each passage, in its own bars. */
export function measurePair(pair: Pair, { hands: name, pace }: Setting): PairFigures {
  const score = open(pair.reduction);
  const full = open(pair.full);
  const melody = pair.melody === null ? null : open(pair.melody);
  const hands = handPresets.find((preset) => preset.name === name)?.hands;
  const part = score.parts.find(({ role }) => role === "reduction");
  if (!hands || !part) throw new RangeError(`No ${name}, or no reduction in ${pair.reduction}`);
  const map = readTempoMap(score);
  const demands = assessHands(score, map, hands).bars;
  const passages = findPassages(demands.map((demand) => barAtTempo(demand, pace)));
  let figures: PairFigures = {
    ...{ passages: passages.length, rewritten: 0, bars: 0, difficulty: { before: 0, after: 0 } },
    ...{ print: nothingHeard, rewrite: nothingHeard, everyOther: nothingHeard, innerOnly: nothingHeard },
  };
  for (const { fromBar, toBar } of passages) {
    const about = { score, map, hands, demands, pace, sourceHash: hashText("") };
    const [best] = rewritePassage({ ...about, fromBar, toBar });
    if (!best) continue;
    const { before, after } = figures.difficulty;
    figures = {
      ...figures,
      rewritten: figures.rewritten + 1,
      difficulty: { before: before + best.difficultyBefore, after: after + best.difficultyAfter },
    };
    for (const [index, written] of barsOfTerms(best.terms).entries()) {
      const barIndex = barSpanOf(best.terms).fromBar + index;
      const orchestra = orchestraAt(full, melody, barIndex + pair.offset);
      const bar = score.bars[barIndex];
      if (!orchestra || !bar) continue;
      const beats = beatsOf(bar.length, beatOf(bar.metre));
      const printed = readBarEvents(score, part, barIndex);
      const hear = (events: readonly BarEvent[]) => hearBar(orchestra, events, beats);
      figures = {
        ...figures,
        bars: figures.bars + 1,
        print: addHeard(figures.print, hear(printed)),
        rewrite: addHeard(figures.rewrite, hear(written)),
        everyOther: addHeard(figures.everyOther, hear(dropEveryOther(printed))),
        innerOnly: addHeard(figures.innerOnly, hear(keepInner(printed))),
      };
    }
  }
  return figures;
}

function orchestraAt(full: Score, melody: Score | null, barIndex: number): OrchestraBar | null {
  const bar = full.bars[barIndex];
  return bar ? readOrchestraBar(full, melody, bar) : null;
}

/** A thinning without any thought. */
function dropEveryOther(events: readonly BarEvent[]): BarEvent[] {
  let count = 0;
  const inTime = [...events].sort((a, b) => compareQuarters(a.offset, b.offset) || b.staff - a.staff);
  const thinned = inTime.map((event) => {
    const kept = event.pitches.filter(() => count++ % 2 === 0);
    return withPitches(event, kept);
  });
  return inOrder(thinned);
}

/** Each chord without its outer notes, where it has others. */
function keepInner(events: readonly BarEvent[]): BarEvent[] {
  return events.map((event) =>
    isRest(event) || event.pitches.length < 3 ? event : withPitches(event, event.pitches.slice(1, -1)),
  );
}
