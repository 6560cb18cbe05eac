import { beatOf } from "@/lib/score/beat-of";
import { positionAt } from "@/lib/score/position-at";
import { compareQuarters, isEqualQuarters, quartersAsNumber } from "@/lib/score/quarters";
import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import { findLeadIn, leadInBars, leadInSeconds, soloTaken } from "../lead-in";
import { sayCount } from "../say-music";

/** A cut that takes the soloist's notes: right only where the soloist plays on both sides. */
function assessTaken(edges: JoinEdges): JoinRow | null {
  const { heard, cut, fromTime, toTime } = edges;
  const taken = soloTaken(heard, fromTime, toTime);
  const [first, last] = [taken[0], taken.at(-1)];
  if (!first || !last) return null;
  const playsBefore = heard.solo.some(
    (s) => compareQuarters(s.from, fromTime) < 0 && compareQuarters(s.to, fromTime) >= 0,
  );
  const playsAfter =
    compareQuarters(last.to, toTime) >= 0 || heard.solo.some((s) => isEqualQuarters(s.from, toTime));
  const entry = sayBar(heard, positionAt(heard.score, first.from).barIndex);
  const isUpbeat = playsAfter && !playsBefore;
  return {
    kind: "lead-in",
    grade: isUpbeat ? "rough" : "needs-a-touch",
    sentence: isUpbeat
      ? `The cut takes the soloist's entry in ${entry} and what leads to it.`
      : `The cut takes notes of the soloist from ${entry} on.`,
    figures: { soloStretchesTaken: taken.length },
    noteIds: taken.map(({ firstNoteId }) => firstNoteId),
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}

/** Whether the music before the soloist's next entry is kept. */
export function assessLeadIn(edges: JoinEdges): JoinRow | null {
  const { heard, cut, toTime } = edges;
  const taken = assessTaken(edges);
  if (taken) return taken;
  const leadIn = findLeadIn(heard, toTime);
  if (!leadIn) return null;
  const place = positionAt(heard.score, leadIn.entry.from);
  const beat = beatOf((heard.score.bars[place.barIndex] ?? { metre: { groups: [], symbol: null } }).metre);
  const bars = quartersAsNumber(leadIn.quarters) / (quartersAsNumber(leadIn.least) / leadInBars);
  const beats = quartersAsNumber(leadIn.quarters) / quartersAsNumber(beat);
  const long = bars >= 2 ? sayCount(Math.floor(bars + 0.5), "bar") : sayCount(Math.ceil(beats), "beat");
  const seconds = `${Math.round(leadIn.seconds)} s`;
  const sentence = leadIn.isLongEnough
    ? `${long.charAt(0).toUpperCase()}${long.slice(1)} (${seconds}) lead to the soloist's entry in ${sayBar(heard, place.barIndex)}.`
    : `Only ${long} (${seconds}) are left before the soloist's entry in ${sayBar(heard, place.barIndex)}.`;
  return {
    kind: "lead-in",
    grade: leadIn.isLongEnough ? "clean" : "rough",
    sentence,
    figures: {
      leadInSeconds: leadIn.seconds,
      leadInBars: bars,
      leastBars: leadInBars,
      leastSeconds: leadInSeconds,
    },
    noteIds: [leadIn.entry.firstNoteId],
    bars: [cut.to.barIndex, place.barIndex],
  };
}
