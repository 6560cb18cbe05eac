import type { Score } from "@/lib/score/score";
import { finishSteps, type Steps } from "@/lib/score/steps";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readWrittenClock } from "@/lib/score/written-seconds";
import { type BarOptions, findBarOptions } from "./bar-strains";
import type { TimedNote } from "./hand-stroke";
import type { HandsProfile } from "./hands-profile";
import { longestLookBack } from "./strains/rates";
import { findStruckNotes } from "./struck-note";
import { timeNotes } from "./time-notes";

/** What each bar of the piece asks of these hands; any tempo can be answered from it. */
export interface HandsReport {
  readonly hands: HandsProfile;
  /** By bar index. */
  readonly bars: readonly BarDemand[];
}

export interface BarDemand {
  readonly barIndex: number;
  /** Null for a bar in which the pianist rests. */
  readonly options: BarOptions | null;
}

/**
 * How the pianist's part lies under these hands, bar by bar in the written order. Each way of sharing a bar between the
 * hands is looked at, and the easiest counts.
 *
 * @param map by which seconds are counted.
 */
export function assessHands(score: Score, map: TempoMap, hands: HandsProfile): HandsReport {
  return finishSteps(assessHandsInSteps(score, map, hands));
}

/** The same bar by bar, so that it can be left between two: says after each how far it has come. */
export function* assessHandsInSteps(score: Score, map: TempoMap, hands: HandsProfile): Steps<HandsReport> {
  const notes = timeNotes(findStruckNotes(score), readWrittenClock(map));
  const bars: BarDemand[] = [];
  let next = 0;
  for (const { index: barIndex } of score.bars) {
    const first = next;
    while (notes[next] && (notes[next] as TimedNote).barIndex <= barIndex) next += 1;
    const near = notes.slice(stepBack(notes, first), next);
    const options = first === next ? null : findBarOptions(score, near, barIndex, hands);
    bars.push({ barIndex, options });
    yield { done: bars.length, total: score.bars.length };
  }
  return { hands, bars };
}

/** Index of the first note of the moments before `first` that tell where the hands come from. */
function stepBack(notes: readonly TimedNote[], first: number): number {
  let index = first;
  for (let moment = 0; moment < longestLookBack && index > 0; moment += 1) {
    const { seconds } = notes[index - 1] as TimedNote;
    while (index > 0 && (notes[index - 1] as TimedNote).seconds === seconds) index -= 1;
  }
  return index;
}
