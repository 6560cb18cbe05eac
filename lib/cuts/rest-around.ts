import type { CutSpan } from "@/lib/score/cut-span";
import { findSoloPart } from "@/lib/score/find-part";
import { onsetOf } from "@/lib/score/onset-of";
import type { Part } from "@/lib/score/part";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import { findPerformedStretches } from "@/lib/score/performed-stretches";
import type { Position } from "@/lib/score/position";
import { compareQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import { findSilentSpans, type SilentSpan } from "@/lib/score/silent-spans";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readTimeline } from "@/lib/score/timeline";

/** The soloist's rest before the entry that follows a cut. */
export interface RestAround {
  /** The rest without this cut, end exclusive: where the soloist stops and where the next entry stands. */
  readonly tuttiFrom: Position;
  readonly tuttiTo: Position;
  readonly beforeSeconds: Seconds;
  readonly afterSeconds: Seconds;
  /** The rehearsal letter at the next entry ("C"), else "bar 97"; null when no entry follows. */
  readonly nextEntryLabel: string | null;
}

interface Played {
  readonly score: Score;
  readonly map: TempoMap;
  readonly solo: Part;
}

/** The longest silence that touches what the cut takes, or, once it is made, its join. */
function longestRest({ score, map, solo }: Played, order: PerformedOrder, cut: CutSpan) {
  const places = findPerformedStretches(score, order, onsetOf(score, cut.from), onsetOf(score, cut.to));
  const timeline = readTimeline(score, order, map);
  let longest: { span: SilentSpan; seconds: number } | null = null;
  for (const span of findSilentSpans(score, order, solo)) {
    const isTouched = places.some((place) => {
      return compareQuarters(place.from, span.to) <= 0 && compareQuarters(place.to, span.from) >= 0;
    });
    const lasts = timeline.secondsAtPerformed(span.to) - timeline.secondsAtPerformed(span.from);
    if (isTouched && lasts > (longest?.seconds ?? 0)) longest = { span, seconds: lasts };
  }
  return longest;
}

function labelEntry({ score, solo }: Played, noteId: string | null): string | null {
  const note = solo.notes.find(({ id }) => id === noteId);
  if (!note) return null;
  for (const part of score.parts) {
    for (const direction of part.directions) {
      if (direction.kind === "rehearsal" && direction.barIndex === note.barIndex) return direction.text;
    }
  }
  return `bar ${score.bars[note.barIndex]?.label ?? ""}`;
}

/**
 * The soloist's rest around a cut, without and with it; null without a solo part or when the soloist never rests there.
 */
export function findRestAround(
  score: Score,
  map: TempoMap,
  { before, after }: { readonly before: PerformedOrder; readonly after: PerformedOrder },
  cut: CutSpan,
): RestAround | null {
  const solo = findSoloPart(score);
  if (!solo) return null;
  const played = { score, map, solo };
  const rest = longestRest(played, before, cut);
  if (!rest) return null;
  const tuttiFrom = positionPlayedFrom(before, rest.span.from);
  const tuttiTo = positionPlayedUpTo(score, before, rest.span.to);
  // Beside another cut nothing is left that touches this one: what is left of its rest is looked for then.
  const left =
    longestRest(played, after, cut) ?? longestRest(played, after, { from: tuttiFrom, to: tuttiTo });
  return {
    tuttiFrom,
    tuttiTo,
    beforeSeconds: seconds(rest.seconds),
    afterSeconds: seconds(left?.seconds ?? 0),
    nextEntryLabel: labelEntry(played, (left ?? rest).span.nextNoteId),
  };
}
