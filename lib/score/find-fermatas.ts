import { pieceLength } from "./piece-length";
import { addQuarters, compareQuarters, type Quarters } from "./quarters";
import type { Score } from "./score";

/** A note or rest under a fermata: written time, end exclusive. */
export interface Fermata {
  readonly onset: Quarters;
  readonly end: Quarters;
}

function findHeld(score: Score): Fermata[] {
  const last = pieceLength(score);
  return score.parts.flatMap((part) =>
    [...part.notes, ...part.rests].flatMap(({ hasFermata, onset, duration }) =>
      hasFermata && duration.num > 0 && compareQuarters(onset, last) < 0
        ? [{ onset, end: addQuarters(onset, duration) }]
        : [],
    ),
  );
}

/**
 * The holds of a piece, in written order. Where parts have fermatas over notes of unequal length that sound
 * together, it is one hold, on the shortest of them: that is where everyone waits.
 */
export function findFermatas(score: Score): Fermata[] {
  // Latest onset first: what starts last is the place where the parts meet.
  const held = findHeld(score).toSorted(
    (a, b) => compareQuarters(b.onset, a.onset) || compareQuarters(a.end, b.end),
  );
  const holds: Fermata[] = [];
  for (const fermata of held) {
    const following = holds.at(-1);
    if (!following || compareQuarters(fermata.end, following.onset) <= 0) holds.push(fermata);
  }
  return holds.reverse();
}
