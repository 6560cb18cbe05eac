import type { Quarters } from "@/lib/score/quarters";
import { compareQuarters, isEqualQuarters } from "@/lib/score/quarters";
import { tempoWithin } from "@/lib/score/split-segments";
import type { JoinEdges } from "../join-edges";
import { sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import type { Heard } from "../listen";

/** Changes below this share are not heard as another tempo. Source: common practice. */
const sameTempo = 1.06;

function tempoBefore({ tempi }: Heard, time: Quarters): number | null {
  const segment = tempi.findLast(({ from }) => compareQuarters(from, time) < 0);
  return segment ? tempoWithin(segment, compareQuarters(segment.to, time) < 0 ? segment.to : time) : null;
}

function tempoAfter({ tempi }: Heard, time: Quarters): number | null {
  const segment = tempi.findLast(({ from }) => compareQuarters(from, time) <= 0);
  return segment ? tempoWithin(segment, compareQuarters(segment.to, time) < 0 ? segment.to : time) : null;
}

/** Whether the tempo stays; a printed tempo at the landing tells the players what to do. */
export function assessTempo({ heard, cut, before, after, fromTime, toTime }: JoinEdges): JoinRow | null {
  if (!before || !after) return null;
  const [from, to] = [tempoBefore(heard, fromTime), tempoAfter(heard, toTime)];
  if (from === null || to === null) return null;
  const ratio = Math.max(from / to, to / from);
  const isMarked = heard.score.tempoMarks.some(({ onset }) => isEqualQuarters(onset, toTime));
  const figures = { quartersPerMinuteBefore: from, quartersPerMinuteAfter: to, isMarked };
  const bars = [cut.from.barIndex, cut.to.barIndex];
  const numbers = `from quarter = ${Math.round(from)} to ${Math.round(to)}`;
  if (ratio <= sameTempo)
    return { kind: "tempo", grade: "clean", sentence: "The tempo stays.", figures, noteIds: [], bars };
  const sentence = isMarked
    ? `The tempo changes ${numbers}, as ${sayBar(heard, cut.to.barIndex)} says.`
    : `The tempo changes ${numbers}, and no mark at the landing says so.`;
  return { kind: "tempo", grade: "needs-a-touch", sentence, figures, noteIds: [], bars };
}
