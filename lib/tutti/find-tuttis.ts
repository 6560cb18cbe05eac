import { type BarCount, countBars } from "@/lib/score/count-bars";
import { findAccompanyingParts, findSoloPart } from "@/lib/score/find-part";
import type { Part } from "@/lib/score/part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import type { Position } from "@/lib/score/position";
import {
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import { findSilentSpans, type SilentSpan } from "@/lib/score/silent-spans";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readTimeline, type Timeline } from "@/lib/score/timeline";
import { countOnsets, indexOnsets, type OnsetIndex } from "./count-onsets";
import { findMarkedSpans } from "./find-marked-spans";

/** A span where the soloist is silent and the orchestra plays. */
export interface Tutti {
  readonly place: "opening" | "interlude" | "closing";
  /** The exact end of the last solo note. */
  readonly from: Position;
  /** Exclusive: the exact onset of the next solo note; before `from` only when a repeat or jump lies between. */
  readonly to: Position;
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
  readonly quarters: Quarters;
  /** Bars in which the soloist is silent throughout, as players count rests; see `countBars`. */
  readonly barCount: number;
  /** Of the first and last of these bars; where no bar is wholly silent, of the bars where the span begins and ends. */
  readonly firstBarLabel: string;
  readonly lastBarLabel: string;
  readonly seconds: Seconds;
  readonly isLong: boolean;
  readonly evidence: TuttiEvidence;
}

export interface TuttiEvidence {
  /** What tells that the soloist is silent: rests in the solo part, or the words Tutti and Solo where there is none. */
  readonly basis: "rests" | "words";
  /** Null where the piece begins or ends in tutti, or where the words decide. */
  readonly lastSoloNoteId: string | null;
  readonly nextSoloNoteId: string | null;
  /** Printed labels of the silent bars in which the solo part carries cue-size notes. */
  readonly cueBarLabels: readonly string[];
  /** Notes and chords that begin in the reduction and the orchestra. */
  readonly onsetCount: number;
}

export interface TuttiOptions {
  /** A tutti of more bars than this is long. */
  readonly longBars?: number;
}

/** Source: common practice. */
export const defaultLongBars = 16;

/** Shorter silences are breaths and rests, no tuttis: they need at least a bar and these seconds. Source: common practice. */
const shortestSeconds = 2;

interface Reading {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly timeline: Timeline;
  readonly onsets: OnsetIndex;
  readonly cueBars: ReadonlySet<number>;
  readonly longBars: number;
}

function lastsABar({ score, order, timeline }: Reading, { from, to }: SilentSpan): boolean {
  const bar = score.bars[positionPlayedFrom(order, from).barIndex];
  const shortest = bar?.metreLength ?? noQuarters;
  const lasts = timeline.secondsAtPerformed(to) - timeline.secondsAtPerformed(from);
  return compareQuarters(subtractQuarters(to, from), shortest) >= 0 && lasts >= shortestSeconds;
}

function placeOf({ order }: Reading, { from, to }: SilentSpan): Tutti["place"] {
  if (from.num === 0) return "opening";
  return isEqualQuarters(to, order.length) ? "closing" : "interlude";
}

function labelsOf({ score }: Reading, counted: BarCount, from: Position, to: Position) {
  const whole = counted.bars.filter(({ barIndex }) => !score.bars[barIndex]?.isPickup);
  const label = (barIndex: number | undefined) => score.bars[barIndex ?? -1]?.label ?? "";
  // `to` is exclusive: a span that ends on a bar line has ended in the bar before it.
  const lastTouched = to.offset.num === 0 && to.barIndex > from.barIndex ? to.barIndex - 1 : to.barIndex;
  return {
    firstBarLabel: label(whole[0]?.barIndex ?? from.barIndex),
    lastBarLabel: label(whole.at(-1)?.barIndex ?? lastTouched),
  };
}

/** Indices of the bars in which a part carries cue-size notes. */
function findCueBars(part: Part | null): ReadonlySet<number> {
  return new Set(part?.notes.flatMap((note) => (note.isCue ? [note.barIndex] : [])));
}

function cueBarLabels({ score, cueBars }: Reading, { bars }: BarCount): string[] {
  const cued = bars.filter(({ barIndex }) => cueBars.has(barIndex));
  return [...new Set(cued.map(({ barIndex }) => score.bars[barIndex]?.label ?? ""))];
}

function describe(reading: Reading, span: SilentSpan, basis: TuttiEvidence["basis"]): Tutti {
  const { score, order, timeline, onsets, longBars } = reading;
  const counted = countBars(score, order, span.from, span.to);
  const from = positionPlayedFrom(order, span.from);
  const to = positionPlayedUpTo(score, order, span.to);
  return {
    place: placeOf(reading, span),
    from,
    to,
    performedFrom: span.from,
    performedTo: span.to,
    quarters: subtractQuarters(span.to, span.from),
    barCount: counted.count,
    ...labelsOf(reading, counted, from, to),
    seconds: seconds(timeline.secondsAtPerformed(span.to) - timeline.secondsAtPerformed(span.from)),
    isLong: counted.count > longBars,
    evidence: {
      basis,
      lastSoloNoteId: span.lastNoteId,
      nextSoloNoteId: span.nextNoteId,
      cueBarLabels: cueBarLabels(reading, counted),
      onsetCount: countOnsets(order, onsets, span),
    },
  };
}

/**
 * Spans in which the orchestra plays and the soloist is silent, in performed order: from the exact end of the last solo
 * note (ties followed, grace notes belonging to their main notes) to the exact onset of the next. Rests, cue-size and
 * hidden notes are silence. A span counts when it lasts at least one bar and two seconds and something begins in the
 * reduction or the orchestra; before the first and after the last solo note too.
 *
 * Without a solo part the words Tutti and Solo in the other parts decide, when there are any.
 *
 * @throws RangeError if `options.longBars` is negative.
 * Source: common practice (a long tutti is one of more than 16 bars).
 */
export function findTuttis(
  score: Score,
  order: PerformedOrder,
  map: TempoMap,
  options: TuttiOptions = {},
): Tutti[] {
  const longBars = options.longBars ?? defaultLongBars;
  if (!(longBars >= 0)) throw new RangeError(`Not a number of bars: ${longBars}`);
  if (order.bars.length === 0) return [];
  const solo = findSoloPart(score);
  const timeline = readTimeline(score, order, map);
  const reading: Reading = {
    score,
    order,
    timeline,
    onsets: indexOnsets(score, findAccompanyingParts(score)),
    cueBars: findCueBars(solo),
    longBars,
  };
  const spans = solo ? findSilentSpans(score, order, solo) : findMarkedSpans(score, order);
  return spans
    .filter((span) => lastsABar(reading, span))
    .map((span) => describe(reading, span, solo ? "rests" : "words"))
    .filter((tutti) => tutti.evidence.onsetCount > 0);
}
