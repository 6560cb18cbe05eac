import { type Heard, type ListenOptions, listen } from "@/lib/cuts/join/listen";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import type { Transposition } from "@/lib/score/transposition";
import { writtenOrder } from "@/lib/score/written-order";
import { findTuttis } from "@/lib/tutti/find-tuttis";

/** The spans of a score's tuttis of eight bars and more, in written order. */
export function tuttiSpans(score: Score): CutSpan[] {
  return findTuttis(score, writtenOrder(score), readTempoMap(score))
    .filter(({ barCount }) => barCount >= 8)
    .map(({ from, to }) => ({ from, to }));
}

const toldOf = (heard: Heard, span: CutSpan) =>
  findCuts(heard, span, { limit: 10 }).map((cut) => ({
    from: cut.from,
    to: cut.to,
    grade: cut.grade,
    cost: Math.round(cut.cost * 1e6),
    savedMilliseconds: Math.round(cut.savedSeconds * 1000),
    rows: cut.assessment.rows.map(({ kind, grade, sentence }) => `${kind} ${grade}: ${sentence}`),
    reasons: cut.reasons,
    alsoAt: cut.alsoAt,
  }));

export type ToldCut = ReturnType<typeof toldOf>[number];

/** The first ten cuts of each span with everything that is said of them, in their order. */
export function tellCuts(score: Score, spans: readonly CutSpan[], options: ListenOptions = {}): ToldCut[][] {
  const heard = listen(score, options);
  return spans.map((span) => toldOf(heard, span));
}

/** The same with some words replaced. */
export function reword(told: readonly ToldCut[][], replace: (sentence: string) => string): ToldCut[][] {
  return told.map((cuts) =>
    cuts.map((cut) => ({ ...cut, rows: cut.rows.map(replace), reasons: cut.reasons.map(replace) })),
  );
}

/** Without the names of notes, keys and chords. */
export const withoutNames = (sentence: string): string =>
  sentence.replace(/\b[A-G][♭♯]*(?=7| major| minor| diminished| augmented| half-diminished)/g, "·");

/** Without printed bar numbers. */
export const withoutLabels = (sentence: string): string => sentence.replace(/\bbar [^ ,.;:]+/g, "bar ·");

/** Without metres and metronome numbers, which notes of twice the value change. */
export const withoutValues = (sentence: string): string =>
  sentence.replace(/\d+\/\d+/g, "·").replace(/quarter = \d+ to \d+/g, "·");

/** Every interval from six semitones down to six up, as it is spelled most simply. */
export const intervalsAround: readonly Transposition[] = [
  [-3, -6],
  [-3, -5],
  [-2, -4],
  [-2, -3],
  [-1, -2],
  [-1, -1],
  [1, 1],
  [1, 2],
  [2, 3],
  [2, 4],
  [3, 5],
  [3, 6],
].map(([diatonic, chromatic]) => ({
  diatonic: diatonic as number,
  chromatic: chromatic as number,
  octaveChange: 0,
}));

const doublePlace = ({ barIndex, offset }: Position): Position => ({
  barIndex,
  offset: scaleQuarters(offset, 2),
});

export const doubleSpan = ({ from, to }: CutSpan): CutSpan => ({
  from: doublePlace(from),
  to: doublePlace(to),
});

/** What was found, with places in notes of twice the value. */
export function doubleTold(told: readonly ToldCut[][]): ToldCut[][] {
  return told.map((cuts) =>
    cuts.map((cut) => ({ ...cut, ...doubleSpan(cut), alsoAt: cut.alsoAt.map(doubleSpan) })),
  );
}

/** The tempo of the same music in notes of twice the value: as many bars in the same time. */
export function doubleMap(map: TempoMap): TempoMap {
  return {
    ...map,
    segments: map.segments.map((segment) => ({
      ...segment,
      from: scaleQuarters(segment.from, 2),
      to: scaleQuarters(segment.to, 2),
      startQuartersPerMinute: 2 * segment.startQuartersPerMinute,
      endQuartersPerMinute: 2 * segment.endQuartersPerMinute,
    })),
  };
}
