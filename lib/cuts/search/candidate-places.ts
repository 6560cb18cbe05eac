import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { pieceLength } from "@/lib/score/piece-length";
import { comparePositions, type Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import { writtenSeconds } from "@/lib/score/written-seconds";
import { barPhase } from "../join/bar-phase";
import { isLongEnough, leadInEnd } from "../join/lead-in";
import type { Heard } from "../join/listen";
import type { Place } from "../join/places";
import type { CutFilters } from "./cut-filters";

/** A place where a cut may begin or land. */
export interface CandidatePlace {
  readonly place: Place;
  readonly time: Quarters;
  /** The same, a beat and a bar of the metre there, in ticks. */
  readonly ticks: number;
  readonly beatTicks: number;
  readonly barTicks: number;
  /** From the start of the piece, as if played straight through. */
  readonly seconds: number;
  /** Where in the metre, as text: cuts go between equal phases. */
  readonly phase: string;
  readonly isBarLine: boolean;
}

export interface CandidatePlaces {
  readonly froms: readonly CandidatePlace[];
  readonly tos: readonly CandidatePlace[];
}

function positionsIn({ sides, score }: Heard, span: CutSpan, { resolution }: CutFilters): Position[] {
  const end = onsetOf(score, span.to);
  return sides.frames
    .filter(({ at }) => resolution !== "bars" || at.offset.num === 0)
    .filter(({ at, onset }) => comparePositions(at, span.from) >= 0 && compareQuarters(onset, end) <= 0)
    .map(({ at }) => at);
}

/** Each metre has phases of its own: two beats into 4/4 are no place of 3/4. */
function phaseOf({ score }: Heard, position: Position): string {
  const phase = barPhase(score, position);
  if (phase.num === 0) return "bar line";
  return `${writeQuarters(phase)} of ${writeQuarters(score.bars[position.barIndex]?.metreLength ?? noQuarters)}`;
}

function barIndexAt({ score }: Heard, time: Quarters): number {
  return score.bars.findLastIndex(({ start }) => compareQuarters(start, time) <= 0);
}

/** Whether enough is kept before the soloist's next entry; without a solo part the end of the span stands for it. */
function keepsLeadIn(
  heard: Heard,
  span: CutSpan,
  { keepLastBars }: CutFilters,
  place: CandidatePlace,
): boolean {
  const entry = heard.solo.length === 0 ? onsetOf(heard.score, span.to) : leadInEnd(heard, place.time);
  if (entry === null) return true;
  if (keepLastBars !== undefined) return place.place.bar + keepLastBars <= barIndexAt(heard, entry);
  return isLongEnough(heard, place.time, entry);
}

/** All places of a span at which a cut may begin, and at which one may land, in written order. */
export function findCandidatePlaces(heard: Heard, span: CutSpan, filters: CutFilters): CandidatePlaces {
  const { score, places, map, sides } = heard;
  const make = (position: Position): CandidatePlace => {
    const time = onsetOf(score, position);
    const { metre, metreLength } = score.bars[position.barIndex] as Bar;
    return {
      place: places.at(position),
      time,
      ticks: sides.ticks(time),
      beatTicks: sides.ticks(beatOf(metre)),
      barTicks: sides.ticks(metreLength),
      seconds: writtenSeconds(map, noQuarters, time),
      phase: phaseOf(heard, position),
      isBarLine: barPhase(score, position).num === 0,
    };
  };
  const inSpan = positionsIn(heard, span, filters);
  const end = pieceLength(score);
  const froms = (filters.from ? [filters.from] : inSpan).map(make).filter(({ time }) => time.num > 0);
  const tos = (filters.to ? [filters.to] : inSpan)
    .map(make)
    .filter((place) => compareQuarters(place.time, end) < 0 && keepsLeadIn(heard, span, filters, place));
  return { froms, tos };
}
