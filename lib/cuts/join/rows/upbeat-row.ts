import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import { findUpbeat } from "../upbeats";

/** Whether upbeats keep the bar that they lead to. */
export function assessUpbeat(edges: JoinEdges): JoinRow | null {
  const { heard, cut, before, after, fromTicks, toTicks } = edges;
  const out = before ? findUpbeat(heard, cut.from.barIndex, fromTicks) : null;
  const into = after ? findUpbeat(heard, cut.to.barIndex, toTicks) : null;
  const common = {
    kind: "upbeat" as const,
    figures: { upbeatBefore: out !== null, upbeatAfter: into !== null },
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
  if (out && into) {
    const sentence = "Both places have an upbeat: the one before the cut leads to the landing.";
    return { ...common, grade: "clean", sentence, noteIds: [...out.noteIds] };
  }
  if (into) {
    const what = before ? "play it at the end of the bar before the cut" : "begin with it";
    const sentence = `The upbeat to ${sayBar(heard, cut.to.barIndex)} is left out: ${what}.`;
    return { ...common, grade: "needs-a-touch", sentence, noteIds: [...into.noteIds] };
  }
  if (out) {
    const sentence = `The upbeat before ${sayBar(heard, cut.from.barIndex)} leads to music that is left out.`;
    return { ...common, grade: "needs-a-touch", sentence, noteIds: [...out.noteIds] };
  }
  return { ...common, grade: "clean", sentence: "No upbeat is lost.", noteIds: [] };
}
