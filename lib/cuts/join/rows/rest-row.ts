import { beatOf } from "@/lib/score/beat-of";
import { quartersAsNumber } from "@/lib/score/quarters";
import { sayClock } from "@/lib/score/say-clock";
import type { JoinEdges } from "../join-edges";
import type { JoinRow } from "../join-row";
import { findRestLeft, leadInSeconds } from "../lead-in";

/** Less than this share of the rest is as good as none. Source: ours; the soloist's own need comes first. */
const leastShare = 0.15;

/** What is left of the soloist's rest before the next entry. Judged here only where next to nothing is left. */
export function assessRest({ heard, cut }: JoinEdges): JoinRow | null {
  const rest = findRestLeft(heard, cut);
  const bar = heard.score.bars[cut.to.barIndex];
  if (!rest || !bar) return null;
  const beat = quartersAsNumber(beatOf(bar.metre));
  const beats = (value: typeof rest.before) => Math.round(quartersAsNumber(value) / beat);
  const share = rest.secondsBefore > 0 ? rest.secondsAfter / rest.secondsBefore : 1;
  const isStolen = share < leastShare || rest.secondsAfter < leadInSeconds;
  const times = `${sayClock(rest.secondsAfter)} of ${sayClock(rest.secondsBefore)}`;
  return {
    kind: "rest",
    grade: isStolen ? "rough" : "clean",
    sentence: isStolen
      ? `Of the soloist's rest of ${beats(rest.before)} beats only ${beats(rest.after)} remain (${times}).`
      : `The soloist keeps ${times} of rest.`,
    figures: { restSecondsBefore: rest.secondsBefore, restSecondsAfter: rest.secondsAfter },
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}
