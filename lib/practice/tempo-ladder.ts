import { findEntries } from "./find-entries";
import type { PracticeRecord } from "./practice-entry";
import type { PracticePassage } from "./practice-passage";
import { compareTempi, type PracticeTempo } from "./practice-tempo";
import { type Ratio, ratio } from "./ratio";

/** One step of the way up to tempo. */
export interface Rung {
  /** In the beat of the ladder: whole, as the metronome counts. */
  readonly perMinute: number;
  /** Of performance tempo, exact. */
  readonly share: Ratio;
}

export interface TempoLadder {
  /** What is counted, in quarters as text. */
  readonly beat: string;
  /** From a comfortable start to performance tempo, each faster than the one before. */
  readonly rungs: readonly Rung[];
  /** Index of the rung that is to be tried now. */
  readonly current: number;
  /** The last rung held at the last try on it. */
  readonly isClimbed: boolean;
  /** Why it starts where it does. */
  readonly start: string;
  /** Why the current rung is the current one. */
  readonly why: string;
}

/** A rung is a twentieth faster than the one before, to the nearest whole number: 4 to 6 per cent from 50 a minute on. */
const step = { num: 21, den: 20 };
/** Nothing is learnt by going slower than a third of the tempo. Ours. */
const slowest = ratio(1, 3);
/** Where no tempo makes it comfortable (a stretch), the ladder begins at half the tempo. Common practice. */
const withoutComfort = ratio(1, 2);

/** The scheme in a sentence, for the screen and the page. */
export const ladderScheme =
  "Start where it is easy; 4 to 6 % faster each time it holds, one rung back when it does not (common practice).";

/**
 * The ladder of a passage: rungs in whole metronome numbers from the fastest tempo that is comfortable up to performance
 * tempo, each about 5 per cent faster than the one before, the last step perhaps less.
 *
 * The log decides which rung is next: above the fastest that held, and one back when the current one did not.
 *
 * Source: common practice among teachers; the figures are ours.
 */
export function planLadder(
  passage: Pick<PracticePassage, "fromBar" | "toBar" | "tempo" | "comfortablePace">,
  log: readonly PracticeRecord[],
): TempoLadder {
  const rungs = layRungs(passage.tempo, passage.comfortablePace);
  return { beat: passage.tempo.beat, rungs, start: sayStart(passage), ...climb(passage, rungs, log) };
}

function layRungs({ perMinute: goal }: PracticeTempo, comfortablePace: number): Rung[] {
  const rungs: Rung[] = [];
  for (let next = startOf(goal, comfortablePace); next < goal; next = rungAbove(next))
    rungs.push({ perMinute: next, share: ratio(next, goal) });
  return [...rungs, { perMinute: goal, share: ratio(1) }];
}

function startOf(goal: number, comfortablePace: number): number {
  const lowest = Math.ceil((goal * slowest.num) / slowest.den);
  if (comfortablePace <= 0) return Math.max(1, Math.floor((goal * withoutComfort.num) / withoutComfort.den));
  // What two roundings may take away must not cost a whole beat a minute.
  return Math.min(goal, Math.max(1, lowest, Math.floor(goal * comfortablePace + 1e-9)));
}

/** At least one beat a minute more; half a beat is rounded up. */
function rungAbove(perMinute: number): number {
  return Math.max(perMinute + 1, Math.floor((2 * perMinute * step.num + step.den) / (2 * step.den)));
}

function sayStart({ tempo, comfortablePace }: Pick<PracticePassage, "tempo" | "comfortablePace">): string {
  if (comfortablePace <= 0)
    return "No tempo makes it comfortable, so it begins at half tempo: look for a rewrite too.";
  const start = startOf(tempo.perMinute, comfortablePace);
  if (start >= tempo.perMinute) return "It is comfortable at performance tempo.";
  return comfortablePace * slowest.den < slowest.num
    ? "It begins at a third of the tempo, faster than is comfortable: look for a rewrite too."
    : `It lies comfortably up to ${start}.`;
}

/** Follows the log from the first entry to the last. */
function climb(
  passage: Pick<PracticePassage, "fromBar" | "toBar" | "tempo">,
  rungs: readonly Rung[],
  log: readonly PracticeRecord[],
): Pick<TempoLadder, "current" | "isClimbed" | "why"> {
  const { beat } = passage.tempo;
  const top = rungs.length - 1;
  let current = 0;
  let isClimbed = false;
  let why = "Nothing is logged yet.";
  for (const { tempo } of findEntries(passage, log)) {
    const compared = rungs.map(({ perMinute }) => compareTempi({ beat, perMinute }, tempo));
    // The fastest rung that is not faster than what was tried; -1 when all are.
    const tried = compared.findLastIndex((order) => order <= 0);
    if (tempo.held) {
      isClimbed ||= tried === top;
      current = Math.max(current, Math.min(top, tried + 1));
      why = isClimbed ? "It held at performance tempo." : `It held at ${tempo.perMinute}.`;
    } else if (tried <= current) {
      // A try far above the current rung says nothing about it.
      current = Math.max(0, tried - 1);
      isClimbed = false;
      why = `It did not hold at ${tempo.perMinute}: one rung back.`;
    }
  }
  return { current, isClimbed, why };
}
