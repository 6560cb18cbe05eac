import { positionPlayedUpTo } from "@/lib/score/performed-positions";
import type { Position } from "@/lib/score/position";
import { compareQuarters } from "@/lib/score/quarters";
import { type BreathPlace, findBreathPlaces } from "./breath-places";
import type { SoloPlaying } from "./find-breaths";
import type { Stretch } from "./find-stretches";

/** A breath that would shorten a stretch that is too long. */
export interface SuggestedBreath {
  /** On the page: the end of the note before. */
  readonly at: Position;
  readonly afterNoteId: string;
  /** What is played on the breath before it and on the one after it, in seconds. */
  readonly secondsBefore: number;
  readonly secondsAfter: number;
  readonly reasons: readonly string[];
}

/**
 * The breaths of one stretch: squared excess over what is comfortable, plus the penalty of each place, is least.
 * Exact: the best way to each place is kept, from left to right.
 */
export function chooseBreaths(
  stretch: Pick<Stretch, "startSeconds" | "endSeconds">,
  places: readonly Pick<BreathPlace, "seconds" | "penalty">[],
  comfortableSeconds: number,
): number[] {
  const excess = (from: number, to: number) => Math.max(0, to - from - comfortableSeconds) ** 2;
  const ends = [...places, { seconds: stretch.endSeconds, penalty: 0 }];
  const best: { cost: number; before: number }[] = [];
  ends.forEach((end, index) => {
    let found = { cost: excess(stretch.startSeconds, end.seconds) + end.penalty, before: -1 };
    for (let before = 0; before < index; before += 1) {
      const from = ends[before] as { seconds: number };
      const cost = (best[before]?.cost ?? 0) + excess(from.seconds, end.seconds) + end.penalty;
      if (cost < found.cost) found = { cost, before };
    }
    best.push(found);
  });
  const chosen: number[] = [];
  for (let at = best.at(-1)?.before ?? -1; at >= 0; at = best[at]?.before ?? -1) chosen.push(at);
  return chosen.reverse();
}

/**
 * Where to breathe in the stretches that are longer than is comfortable. What comes twice is suggested once for each
 * place on the page.
 *
 * @param phraseStarts indices of bars with which a phrase is thought to begin.
 */
export function suggestBreaths(
  playing: SoloPlaying,
  stretches: readonly Stretch[],
  comfortableSeconds: number,
  phraseStarts: ReadonlySet<number>,
): SuggestedBreath[] {
  const all = findBreathPlaces(playing, phraseStarts);
  const suggested = new Map<string, SuggestedBreath>();
  for (const stretch of stretches.filter(({ seconds }) => seconds > comfortableSeconds)) {
    const places = all.filter(
      ({ performed }) =>
        compareQuarters(performed, stretch.performedFrom) > 0 &&
        compareQuarters(performed, stretch.performedTo) < 0,
    );
    const chosen = chooseBreaths(stretch, places, comfortableSeconds).flatMap((index) => places[index] ?? []);
    chosen.forEach((place, index) => {
      if (suggested.has(place.afterNoteId)) return;
      suggested.set(place.afterNoteId, {
        at: positionPlayedUpTo(playing.score, playing.order, place.performed),
        afterNoteId: place.afterNoteId,
        secondsBefore: place.seconds - (chosen[index - 1]?.seconds ?? stretch.startSeconds),
        secondsAfter: (chosen[index + 1]?.seconds ?? stretch.endSeconds) - place.seconds,
        reasons: place.reasons,
      });
    });
  }
  return [...suggested.values()];
}
