import type { PracticeRecord } from "./practice-entry";
import type { PassageBars, PracticePassage } from "./practice-passage";
import type { Ratio } from "./ratio";
import { findReachedTempo, type TempoStanding } from "./reached-tempo";

/** "Not yet at tempo": a mark over bars of the strip. */
export interface TempoMark extends PassageBars {
  readonly label: string;
  readonly standing: Exclude<TempoStanding, "at tempo">;
  /** "not yet at tempo: 92 of 112". */
  readonly words: string;
  /** "92→112": what held at best, nothing when nothing did, and what is wanted. */
  readonly short: string;
}

/** Marks for the passages that are not at tempo, in the order of the page. */
export function findTempoMarks(
  passages: readonly PracticePassage[],
  log: readonly PracticeRecord[],
): TempoMark[] {
  return passages
    .flatMap((passage): TempoMark[] => {
      const { standing, share } = findReachedTempo(passage, log);
      if (standing === "at tempo") return [];
      const { fromBar, toBar, label } = passage;
      const goal = passage.tempo.perMinute;
      const short = `${share.num === 0 ? "" : reachedOf(goal, share)}→${goal}`;
      return [{ fromBar, toBar, label, standing, short, words: sayStanding(passage, log) }];
    })
    .sort((a, b) => a.fromBar - b.fromBar);
}

/** What was logged in another beat is told in the beat of the passage, in whole beats. */
function reachedOf(goal: number, { num, den }: Ratio): number {
  return Math.floor((goal * num) / den);
}

/** How a passage stands, in a few words: "not yet at tempo: 92 of 112". */
export function sayStanding(
  passage: Pick<PracticePassage, "fromBar" | "toBar" | "tempo">,
  log: readonly PracticeRecord[],
): string {
  const { standing, best, share } = findReachedTempo(passage, log);
  const goal = passage.tempo.perMinute;
  const reached = reachedOf(goal, share);
  switch (standing) {
    case "not begun":
      return `not yet begun, ${goal} to reach`;
    case "below tempo":
      return `not yet at tempo: ${reached} of ${goal}`;
    case "was at tempo":
      return `was at ${best?.tempo.beat === passage.tempo.beat ? best.tempo.perMinute : goal}, did not hold since`;
    case "at tempo":
      return "at tempo";
  }
}
