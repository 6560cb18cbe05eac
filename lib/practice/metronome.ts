import type { Metre } from "@/lib/score/bar";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  quartersAsNumber,
  scaleQuarters,
} from "@/lib/score/quarters";
import { beatOfTempo, type PracticeTempo, quartersPerMinuteOf } from "./practice-tempo";
import { type Ratio, ratio } from "./ratio";

/** How strongly a click sounds: the first of a bar, the first of a group inside it (the 2 of 3+2), any other. */
export type ClickStress = "bar" | "group" | "beat";

/** A click at its place in the bar. */
export interface PatternClick {
  /** From the bar line, exact. */
  readonly offset: Quarters;
  readonly stress: ClickStress;
}

/** What the metronome clicks in one bar, over and over. */
export interface ClickPattern {
  readonly length: Quarters;
  readonly clicks: readonly PatternClick[];
}

/**
 * The clicks of a bar: one on each beat that the tempo counts. Where the bar is no whole number of such beats (5/8 counted
 * in quarters), the lower figure of the metre is clicked, with the first of each printed group stressed. Without a metre
 * every beat is the same. Source: common practice.
 */
export function clickPattern(metre: Metre, tempo: Pick<PracticeTempo, "beat">): ClickPattern {
  const beat = beatOfTempo(tempo);
  const groups = groupsOf(metre);
  const length = groups.at(-1)?.end ?? noQuarters;
  if (length.num === 0) return { length: beat, clicks: [{ offset: noQuarters, stress: "beat" }] };
  const starts = new Set(groups.map(({ start }) => start.num / start.den));
  const unit = isWholeIn(length, beat) ? beat : (groups[0]?.unit ?? beat);
  const clicks: PatternClick[] = [];
  for (let at = 0, offset = noQuarters; compareQuarters(offset, length) < 0; ) {
    const isGroup = starts.has(quartersAsNumber(offset));
    clicks.push({ offset, stress: at === 0 ? "bar" : isGroup ? "group" : "beat" });
    at += 1;
    offset = scaleQuarters(unit, at);
  }
  return { length, clicks };
}

interface Group {
  readonly start: Quarters;
  readonly end: Quarters;
  readonly unit: Quarters;
}

/** The printed groups in the bar: 3+2 over 8 has two, a plain 4/4 one. */
function groupsOf({ groups }: Metre): Group[] {
  const found: Group[] = [];
  for (const { beats, beatType } of groups) {
    for (const count of beats) {
      const start = found.at(-1)?.end ?? noQuarters;
      const [unit, length] = [quarters(4, beatType), quarters(4 * count, beatType)];
      found.push({ start, unit, end: addQuarters(start, length) });
    }
  }
  return found;
}

const isWholeIn = (length: Quarters, beat: Quarters): boolean =>
  (length.num * beat.den) % (length.den * beat.num) === 0;

/** A click of the running metronome. */
export interface Click {
  /** From the first click on, counted from 0. */
  readonly index: number;
  /** Since the first click. */
  readonly seconds: number;
  /** Bars since the start, and the click's number in its bar, both from 0. */
  readonly bar: number;
  readonly inBar: number;
  readonly stress: ClickStress;
}

/**
 * A click by its number. Its moment is computed from whole numbers and rounded once, so that no error adds up however long
 * it runs: 60 seconds over the quarters a minute, times the quarters since the start.
 *
 * @throws RangeError for a number before the first click.
 */
export function clickAt(pattern: ClickPattern, tempo: PracticeTempo, index: number): Click {
  const { clicks, length } = pattern;
  if (!Number.isSafeInteger(index) || index < 0) throw new RangeError(`Not the number of a click: ${index}`);
  const [bar, inBar] = [Math.floor(index / clicks.length), index % clicks.length];
  const { offset, stress } = clicks[inBar] as PatternClick; // the remainder is one of them
  const since = addQuarters(scaleQuarters(length, bar), offset);
  return { index, bar, inBar, stress, seconds: secondsFor(since, tempo) };
}

/** The number of the first click that is not before a moment, in seconds since the first. */
export function clickFrom(pattern: ClickPattern, tempo: PracticeTempo, seconds: number): number {
  if (seconds <= 0) return 0;
  const barSeconds = secondsFor(pattern.length, tempo);
  let index = Math.max(0, Math.floor(seconds / barSeconds) - 1) * pattern.clicks.length;
  while (clickAt(pattern, tempo, index).seconds < seconds - 1e-9) index += 1;
  return index;
}

/** Metronome arithmetic: quarters at so many quarters a minute, in seconds. */
function secondsFor(length: Quarters, tempo: PracticeTempo): number {
  const perMinute = quartersPerMinuteOf(tempo);
  return (60 * length.num * perMinute.den) / (length.den * perMinute.num);
}

/** A tempo counted in another beat, exact: 60 dotted quarters a minute are 180 eighths. */
export function perMinuteIn(tempo: PracticeTempo, beat: Quarters): Ratio {
  const { num, den } = quartersPerMinuteOf(tempo);
  return ratio(num * beat.den, den * beat.num);
}
