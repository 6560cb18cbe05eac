import { comparePositions } from "@/lib/score/position";
import { compareQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type PositionTerms, toPosition } from "./position-terms";
import type { TempoTerms } from "./tempo-terms";

/**
 * What keeps these decisions from being carried out in this music, in a sentence; null when nothing does.
 *
 * @param tempo in the order of the page, as `sortTempoTerms` gives it.
 */
export function findTempoFault(score: Score, tempo: TempoTerms): string | null {
  const places = [...tempo.tempi.map(({ at }) => at), ...tempo.timings.flatMap(({ from, to }) => [from, to])];
  const outside = places.find((place) => !isInside(score, place));
  if (outside)
    return `There is no place at bar ${outside.barIndex + 1} of the source, ${outside.offset} quarters in.`;
  const twice = tempo.tempi.find(({ at }, index) => isSamePlace(at, tempo.tempi[index + 1]?.at));
  if (twice) return `Two tempi stand at the same place in bar ${score.bars[twice.at.barIndex]?.label}.`;
  const empty = tempo.timings.find(({ from, to }) => comparePositions(toPosition(from), toPosition(to)) >= 0);
  if (empty)
    return `A timed section ends before it begins, in bar ${score.bars[empty.from.barIndex]?.label}.`;
  const crossing = tempo.timings.find(({ to }, index) => isAfter(to, tempo.timings[index + 1]?.from));
  if (crossing) return `Two timed sections overlap in bar ${score.bars[crossing.to.barIndex]?.label}.`;
  return null;
}

function isInside(score: Score, place: PositionTerms): boolean {
  const bar = score.bars[place.barIndex];
  return bar !== undefined && compareQuarters(toPosition(place).offset, bar.length) <= 0;
}

function isSamePlace(a: PositionTerms, b: PositionTerms | undefined): boolean {
  return b !== undefined && a.barIndex === b.barIndex && a.offset === b.offset;
}

function isAfter(a: PositionTerms, b: PositionTerms | undefined): boolean {
  return b !== undefined && comparePositions(toPosition(a), toPosition(b)) > 0;
}
