import { findSoloPart } from "@/lib/score/find-part";
import { onsetOf } from "@/lib/score/onset-of";
import type { Part } from "@/lib/score/part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import { findPerformedStretches } from "@/lib/score/performed-stretches";
import type { Position } from "@/lib/score/position";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import { findSilentSpans } from "@/lib/score/silent-spans";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readTimeline, type Timeline } from "@/lib/score/timeline";
import { findPlayedNotes, type PlayedNote } from "./played-notes";

/** Where the soloist takes air: in a rest, at a breath mark of the page, or where the player marked one. */
export interface BreathPoint {
  readonly kind: "rest" | "printed" | "marked";
  /** Performed time; equal for a mark, which takes its time from the note before it. */
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
  /** Where the soloist stops and where the next note stands. */
  readonly from: Position;
  readonly to: Position;
  readonly startSeconds: Seconds;
  readonly endSeconds: Seconds;
}

/** A solo part as it is played, with or without cuts. */
export interface SoloPlaying {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly timeline: Timeline;
  readonly notes: readonly PlayedNote[];
  /** In performed order. */
  readonly breaths: readonly BreathPoint[];
}

interface Place {
  readonly kind: BreathPoint["kind"];
  readonly performedFrom: Quarters;
  readonly performedTo: Quarters;
}

const printedMarks = ["breath-mark", "caesura"];

/** At the ends of notes that carry a mark; a note whose end is cut has lost it. */
function findPrinted(notes: readonly PlayedNote[]): Place[] {
  const marked = notes.filter(({ note, isBroken }) => {
    return !isBroken && note.articulations.some((articulation) => printedMarks.includes(articulation));
  });
  return marked.map(({ performedTo }) => ({ kind: "printed", performedFrom: performedTo, performedTo }));
}

function findMarked(score: Score, order: PerformedOrder, marks: readonly Position[]): Place[] {
  return marks.flatMap((mark) => {
    const onset = onsetOf(score, mark);
    return findPerformedStretches(score, order, onset, onset).map((moment): Place => {
      return { kind: "marked", performedFrom: moment.from, performedTo: moment.to };
    });
  });
}

/** Rests first: a mark beside a rest is no second breath, nor are two marks at one place. */
function putInOrder(rests: readonly Place[], marks: readonly Place[]): Place[] {
  const kept = [...rests];
  for (const mark of marks) {
    const isThere = kept.some(
      (place) =>
        compareQuarters(place.performedFrom, mark.performedFrom) <= 0 &&
        compareQuarters(mark.performedFrom, place.performedTo) <= 0,
    );
    if (!isThere) kept.push(mark);
  }
  return kept.toSorted((a, b) => compareQuarters(a.performedFrom, b.performedFrom));
}

/**
 * The solo part of a performed order with its breaths: rests of `catchSeconds` and more, breath marks and caesuras of the
 * page, and the player's own marks. Null without a solo part or when nothing is played.
 *
 * @param marks of the player, positions of the written order; each counts every time it is played.
 * @throws RangeError if a mark lies outside the piece.
 */
export function readSoloPlaying(
  score: Score,
  map: TempoMap,
  order: PerformedOrder,
  marks: readonly Position[],
  catchSeconds: number,
): SoloPlaying | null {
  const solo: Part | null = findSoloPart(score);
  if (!solo || order.bars.length === 0) return null;
  const timeline = readTimeline(score, order, map);
  const notes = findPlayedNotes(score, order, solo);
  const at = (performed: Quarters) => timeline.secondsAtPerformed(performed);
  const rests = findSilentSpans(score, order, solo).flatMap((span): Place[] => {
    // Whole milliseconds, so that a rest of exactly this length counts whatever binary fractions do.
    const isBreath = Math.round(1000 * (at(span.to) - at(span.from))) >= Math.round(1000 * catchSeconds);
    return isBreath ? [{ kind: "rest", performedFrom: span.from, performedTo: span.to }] : [];
  });
  const places = putInOrder(rests, [...findPrinted(notes), ...findMarked(score, order, marks)]);
  const breaths = places.map((place): BreathPoint => {
    return {
      ...place,
      from: positionPlayedUpTo(score, order, place.performedFrom),
      to: positionPlayedFrom(order, place.performedTo),
      startSeconds: seconds(at(place.performedFrom)),
      endSeconds: seconds(at(place.performedTo)),
    };
  });
  return { score, order, timeline, notes, breaths };
}
