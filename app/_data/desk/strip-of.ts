import type { Stretch, StripLetter, StripPiece, StripTempo } from "@/app/_ui/strip/strip-piece";
import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import { beatOf } from "@/lib/score/beat-of";
import { findSoloPart } from "@/lib/score/find-part";
import { comparePositions } from "@/lib/score/position";
import { positionAt } from "@/lib/score/position-at";
import { quartersAsNumber } from "@/lib/score/quarters";
import type { TempoAssumption } from "@/lib/score/tempo-segment";
import { findMoments, type ScoreInTime } from "./in-time";

/** A tempo as the page, a default or the duo gives it, in counted beats a minute. */
export interface DeskTempo {
  readonly barIndex: number;
  readonly offset: string;
  readonly words: string | null;
  readonly beats: string | null;
  readonly source: "printed" | "assumed" | "own";
}

/** Quarters a minute as counted beats a minute: "66" in 6/8 is 66 dotted quarters. */
function inBeats({ score }: ScoreInTime, barIndex: number, quartersPerMinute: number): string {
  const bar = score.bars[barIndex];
  const beat = bar ? quartersAsNumber(beatOf(bar.metre)) : 1;
  return `${Math.round(quartersPerMinute / beat)}`;
}

const isTempo = ({ kind }: TempoAssumption) =>
  kind === "tempo-word" || kind === "tempo-change" || kind === "no-tempo";

/** The tempi of the piece in written order: printed numbers, assumed ones for words without a number, the duo's own. */
export function listTempi(inTime: ScoreInTime, own: TempoTerms["tempi"]): DeskTempo[] {
  const { score, map } = inTime;
  const tempi = new Map<string, DeskTempo>();
  const put = (at: PositionTerms, quartersPerMinute: number, tempo: Pick<DeskTempo, "words" | "source">) => {
    const key = `${at.barIndex} ${at.offset}`;
    const words = tempo.words ?? tempi.get(key)?.words ?? null;
    tempi.set(key, { ...at, ...tempo, words, beats: inBeats(inTime, at.barIndex, quartersPerMinute) });
  };
  for (const { position, printed, assumed } of map.assumptions.filter(isTempo)) {
    put(toPositionTerms(position), assumed, { words: printed, source: "assumed" });
  }
  for (const { onset, words, quartersPerMinute } of score.tempoMarks) {
    if (quartersPerMinute === null) continue;
    put(toPositionTerms(positionAt(score, onset)), quartersPerMinute, { words, source: "printed" });
  }
  for (const { at, quartersPerMinute } of own) put(at, quartersPerMinute, { words: null, source: "own" });
  return [...tempi.values()].sort((a, b) => comparePositions(toPosition(a), toPosition(b)));
}

function placeTempi(inTime: ScoreInTime, tempi: readonly DeskTempo[]): StripTempo[] {
  return tempi
    .flatMap(({ barIndex, words, beats, source }) =>
      findMoments(inTime, barIndex).map((at) => ({
        at,
        words,
        beats: beats === null ? null : source === "assumed" ? `≈ ${beats}` : beats,
      })),
    )
    .sort((a, b) => a.at - b.at);
}

/** Rehearsal letters in written order, each once, whichever parts print it. */
export function listLetters({ score }: Pick<ScoreInTime, "score">): { text: string; barIndex: number }[] {
  const letters = new Map<string, { text: string; barIndex: number }>();
  for (const part of score.parts) {
    for (const direction of part.directions) {
      const text = direction.kind === "rehearsal" ? direction.text.trim() : "";
      if (text !== "") letters.set(`${direction.barIndex} ${text}`, { text, barIndex: direction.barIndex });
    }
  }
  return [...letters.values()].sort((a, b) => a.barIndex - b.barIndex);
}

function placeLetters(inTime: ScoreInTime): StripLetter[] {
  return listLetters(inTime)
    .flatMap(({ text, barIndex }) => findMoments(inTime, barIndex).map((at) => ({ text, at })))
    .sort((a, b) => a.at - b.at);
}

/** What is left of the piece between its tuttis: short rests belong to the playing. */
function betweenTuttis(tuttis: readonly Stretch[], totalSeconds: number): Stretch[] {
  const starts = [0, ...tuttis.map((tutti) => tutti.to)];
  const ends = [...tuttis.map((tutti) => tutti.from), totalSeconds];
  return starts.flatMap((from, index) => {
    const to = ends[index] ?? totalSeconds;
    return to - from > 0.05 ? [{ from, to }] : [];
  });
}

/** Whether anything tells when the soloist plays: a solo part, or the words Tutti and Solo. */
export function knowsSolo({ score, tuttis }: Pick<ScoreInTime, "score" | "tuttis">): boolean {
  return findSoloPart(score) !== null || tuttis.length > 0;
}

/** The strip of a piece as written, before cuts, comments and breaths are laid on it. */
export function stripOf(inTime: ScoreInTime, soloName: string, tempi: readonly DeskTempo[]): StripPiece {
  const { score, timeline, tuttis } = inTime;
  const placed = tuttis.map((tutti) => ({
    from: timeline.secondsAtPerformed(tutti.performedFrom),
    to: timeline.secondsAtPerformed(tutti.performedTo),
    barCount: tutti.barCount,
    firstLabel: tutti.firstBarLabel,
    lastLabel: tutti.lastBarLabel,
  }));
  return {
    totalSeconds: timeline.totalSeconds,
    soloName,
    bars: timeline.bars.map((bar) => ({
      barIndex: bar.barIndex,
      label: score.bars[bar.barIndex]?.label ?? "",
      from: bar.startSeconds,
      to: bar.endSeconds,
    })),
    tempi: placeTempi(inTime, tempi),
    letters: placeLetters(inTime),
    solo: knowsSolo(inTime) ? betweenTuttis(placed, timeline.totalSeconds) : [],
    tuttis: placed,
    cuts: [],
    breaths: [],
    notes: [],
    pencils: [],
  };
}
