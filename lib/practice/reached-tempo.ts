import { findEntries } from "./find-entries";
import type { PracticeRecord } from "./practice-entry";
import type { PracticePassage } from "./practice-passage";
import { compareTempi, quartersPerMinuteOf } from "./practice-tempo";
import { type Ratio, ratio } from "./ratio";

/**
 * How a passage stands against its performance tempo: never logged as holding; below it; it was there, but not at the
 * last try; there.
 */
export type TempoStanding = "not begun" | "below tempo" | "was at tempo" | "at tempo";

export interface ReachedTempo {
  readonly standing: TempoStanding;
  /** The fastest that held; the latest of equal ones. */
  readonly best: PracticeRecord | null;
  /** The last try, whether it held or not. */
  readonly last: PracticeRecord | null;
  /** The best of performance tempo, exact; 0 when nothing held. */
  readonly share: Ratio;
}

/** "Not yet at tempo", and what was reached: the best and the last of the log against performance tempo. */
export function findReachedTempo(
  passage: Pick<PracticePassage, "fromBar" | "toBar" | "tempo">,
  log: readonly PracticeRecord[],
): ReachedTempo {
  const entries = findEntries(passage, log);
  const last = entries.at(-1) ?? null;
  const best = entries
    .filter(({ tempo }) => tempo.held)
    .reduce<PracticeRecord | null>(
      (fastest, entry) => (fastest && compareTempi(fastest.tempo, entry.tempo) > 0 ? fastest : entry),
      null,
    );
  return { standing: standingOf(passage, best, last), best, last, share: shareOf(passage, best) };
}

const isThere = (passage: Pick<PracticePassage, "tempo">, { tempo }: PracticeRecord) =>
  compareTempi(tempo, passage.tempo) >= 0;

function standingOf(
  passage: Pick<PracticePassage, "tempo">,
  best: PracticeRecord | null,
  last: PracticeRecord | null,
): TempoStanding {
  if (best === null) return "not begun";
  if (!isThere(passage, best)) return "below tempo";
  // A slow practice afterwards takes nothing back; a try at tempo or below that failed does.
  return last === null || last.tempo.held || compareTempi(last.tempo, passage.tempo) > 0
    ? "at tempo"
    : "was at tempo";
}

function shareOf({ tempo }: Pick<PracticePassage, "tempo">, best: PracticeRecord | null): Ratio {
  if (best === null) return ratio(0);
  const [reached, wanted] = [quartersPerMinuteOf(best.tempo), quartersPerMinuteOf(tempo)];
  return ratio(reached.num * wanted.den, reached.den * wanted.num);
}
