import type { CutSpan } from "./cut-span";
import { findSoloPart } from "./find-part";
import { leaveOut, readPlayedBefore } from "./leave-out";
import { readMilliseconds, sumPerformed } from "./millisecond-clock";
import { onsetOf } from "./onset-of";
import type { Part } from "./part";
import { findPerformedOrder, type PerformedOrder } from "./performed-order";
import { positionPlayedFrom, positionPlayedUpTo } from "./performed-positions";
import { findPerformedStretches } from "./performed-stretches";
import type { Position } from "./position";
import { compareQuarters, type Quarters } from "./quarters";
import type { Score } from "./score";
import { partsOfABar, readSilentBars } from "./silent-bars";
import { findSilentSpans, type SilentSpan } from "./silent-spans";
import type { TempoMap } from "./tempo-segment";

/** A silence of the soloist as it is played, with or without cuts. */
export interface RestLeft {
  readonly milliseconds: number;
  /** Silent bars in `partsOfABar`. */
  readonly barParts: number;
  /** Wholly silent bars, as players count them. */
  readonly barCount: number;
  /** Where the soloist stops and where the next entry stands; null when there is no silence. */
  readonly between: { readonly from: Position; readonly to: Position } | null;
  readonly nextNoteId: string | null;
}

/** The soloist's rests in a piece, ready to be measured under any cuts. */
export interface RestReading {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly solo: Part | null;
  readonly silences: readonly SilentSpan[];
  readonly milliseconds: (written: Quarters) => number;
  readonly barParts: (written: Quarters) => number;
}

export function readRests(score: Score, map: TempoMap): RestReading {
  const solo = findSoloPart(score);
  const order = findPerformedOrder(score);
  const clock = readMilliseconds(map);
  const bars = solo ? readSilentBars(score, solo) : null;
  return {
    score,
    order,
    solo,
    silences: solo ? findSilentSpans(score, order, solo) : [],
    milliseconds: (written) => clock.at(written),
    barParts: (written) => bars?.at(written) ?? 0,
  };
}

function isTouched(span: SilentSpan, place: { readonly from: Quarters; readonly to: Quarters }): boolean {
  return compareQuarters(place.from, span.to) <= 0 && compareQuarters(place.to, span.from) >= 0;
}

/**
 * The silences that a place of the page lies in, one for each time it is played: of several that it touches, the one
 * that is longest on the clock.
 */
export function findRestsAt(reading: RestReading, span: { readonly from: Position; readonly to: Position }) {
  const { score, order, silences } = reading;
  const [from, to] = [onsetOf(score, span.from), onsetOf(score, span.to)];
  const found = findPerformedStretches(score, order, from, to).flatMap((stretch) => {
    const touched = silences.filter((silence) => isTouched(silence, stretch));
    const lengths = touched.map((silence) => sumPerformed(score, order, reading.milliseconds, silence));
    const longest = touched[lengths.indexOf(Math.max(...lengths))];
    return longest ? [longest] : [];
  });
  return [...new Set(found)];
}

/** An order without its cuts, and what is silent in it: made once for all rests that are measured under these cuts. */
export interface CutRests {
  readonly cuts: readonly CutSpan[];
  readonly order: PerformedOrder;
  readonly silences: readonly SilentSpan[];
  /** How much is played before a performed time of the uncut order. */
  readonly playedBefore: (end: Quarters) => Quarters;
}

/** @throws RangeError if a cut cannot be made. */
export function cutRests(reading: RestReading, cuts: readonly CutSpan[]): CutRests {
  const { score, order, solo } = reading;
  const playedBefore = readPlayedBefore(score, order, cuts);
  if (cuts.length === 0) return { cuts, order, silences: reading.silences, playedBefore };
  const cut = leaveOut(score, order, cuts);
  return { cuts, order: cut, silences: solo ? findSilentSpans(score, cut, solo) : [], playedBefore };
}

const noRest: RestLeft = { milliseconds: 0, barParts: 0, barCount: 0, between: null, nextNoteId: null };

/** What cuts leave of one silence: the silence around it, or, when all of it is cut, the silence that meets the join. */
export function measureRest(reading: RestReading, cut: CutRests, silence: SilentSpan): RestLeft {
  const { score } = reading;
  const place = { from: cut.playedBefore(silence.from), to: cut.playedBefore(silence.to) };
  let most = noRest;
  for (const left of cut.silences.filter((span) => isTouched(span, place))) {
    const milliseconds = sumPerformed(score, cut.order, reading.milliseconds, left);
    const barParts = sumPerformed(score, cut.order, reading.barParts, left);
    if (most.between && milliseconds <= most.milliseconds) continue;
    const between = {
      from: positionPlayedFrom(cut.order, left.from),
      to: positionPlayedUpTo(score, cut.order, left.to),
    };
    const barCount = Math.floor(barParts / partsOfABar);
    most = { milliseconds, barParts, barCount, between, nextNoteId: left.nextNoteId };
  }
  return most;
}
