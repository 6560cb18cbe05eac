import { readFileSync } from "node:fs";
import path from "node:path";
import type { Key } from "@/lib/harmony/key";
import { readScore } from "@/lib/musicxml/read-score";
import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type AnalysedEvent, type RomanText, readRomanText } from "./read-roman-text";
import { type AnalysedChord, readRomanNumeral } from "./roman-numeral";

/** A chord of a human analysis, in force from its onset until the next. */
export interface AnalysedSpan {
  readonly onset: Quarters;
  readonly key: Key;
  readonly chord: AnalysedChord;
  readonly figure: string;
}

export interface AnalysedPiece {
  readonly name: string;
  readonly score: Score;
  /** By onset. */
  readonly spans: readonly AnalysedSpan[];
}

/**
 * Bars by the number that the analyses count them with: an upbeat is 0, and two halves of a bar that a sign divides
 * are one. Files do not always print these numbers.
 */
function numberBars(bars: readonly Bar[]): Map<number, Bar> {
  const numbers = new Map<number, Bar>();
  let number = bars[0]?.isPickup ? 0 : 1;
  let isSecondHalf = false;
  for (const [index, bar] of bars.entries()) {
    if (isSecondHalf) {
      isSecondHalf = false;
      continue;
    }
    numbers.set(number, bar);
    number += 1;
    const next = bars[index + 1];
    const isHalf = bar.isIrregular && next?.isIrregular === true;
    isSecondHalf =
      isHalf && next !== undefined && isEqualQuarters(addQuarters(bar.length, next.length), bar.metreLength);
  }
  return numbers;
}

function isFast({ signatures }: RomanText, barNumber: number): boolean {
  return (
    signatures.findLast((signature) => signature.barNumber <= barNumber)?.text.startsWith("fast") ?? false
  );
}

/** Beats are told in decimals ("1.66"): the nearest 48th of a quarter is meant. */
function onsetOfBeat(bar: Bar, beat: number, beatLength: Quarters): Quarters {
  const offset = quarters(Math.round(((beat - 1) * beatLength.num * 48) / beatLength.den), 48);
  const lacking = bar.isPickup ? subtractQuarters(bar.metreLength, bar.length) : noQuarters;
  return addQuarters(bar.start, laterOf(noQuarters, subtractQuarters(offset, lacking)));
}

function placeEvent(text: RomanText, bars: ReadonlyMap<number, Bar>, event: AnalysedEvent): AnalysedSpan[] {
  const bar = bars.get(event.barNumber);
  if (!bar) return [];
  const beatLength = isFast(text, event.barNumber) ? bar.metreLength : beatOf(bar.metre);
  const chord = readRomanNumeral(event.figure, event.key);
  return [{ onset: onsetOfBeat(bar, event.beat, beatLength), key: event.key, chord, figure: event.figure }];
}

/** @throws RangeError if the score cannot be read or the analysis is not understood. */
export function readAnalysedPiece(folder: string, analysisFile: string): AnalysedPiece {
  const name = analysisFile.replace(/\.rntxt$/, "");
  const scoreFile = name.startsWith("haydn") ? `${name}_reduction.mxl` : `${name}.mxl`;
  const read = readScore(readFileSync(path.join(folder, scoreFile)));
  if (!read.ok) throw new RangeError(`${scoreFile}: ${read.problem.kind}`);
  const { score } = read.value;
  const text = readRomanText(readFileSync(path.join(folder, analysisFile), "utf8"));
  const bars = numberBars(score.bars);
  const spans = text.events.flatMap((event) => placeEvent(text, bars, event));
  return { name, score, spans: spans.sort((a, b) => compareQuarters(a.onset, b.onset)) };
}

/** What the analysis says at a written time; null before it begins. */
export function analysedAt(piece: AnalysedPiece, onset: Quarters): AnalysedSpan | null {
  return piece.spans.findLast((span) => compareQuarters(span.onset, onset) <= 0) ?? null;
}
