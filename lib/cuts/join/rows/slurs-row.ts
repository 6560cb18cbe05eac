import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import type { SlurSpan } from "../spanning-signs";

function slursAcross({ heard: { sides } }: JoinEdges, time: number): SlurSpan[] {
  return sides.signs.slurs.filter(({ from, to }) => from < time && to >= time);
}

/** Slurs that lose an end; one that goes on in the same staff on the other side loses nothing. */
export function findTornSlurs(edges: JoinEdges): { ends: SlurSpan[]; begins: SlurSpan[] } {
  const { before, after, fromTicks, toTicks } = edges;
  const [out, into] = [slursAcross(edges, fromTicks), slursAcross(edges, toTicks)];
  const meets = (own: SlurSpan, others: readonly SlurSpan[]) => others.some(({ lane }) => lane === own.lane);
  return {
    ends: before ? out.filter((slur) => !meets(slur, into)) : [],
    begins: after ? into.filter((slur) => !meets(slur, out)) : [],
  };
}

/** Slurs that the cut breaks: the phrasing has to be written anew. */
export function assessSlurs(edges: JoinEdges): JoinRow | null {
  const { heard, cut } = edges;
  const { ends, begins } = findTornSlurs(edges);
  const torn = [...ends, ...begins];
  const common = {
    kind: "slurs" as const,
    figures: { slursBefore: ends.length, slursAfter: begins.length },
    noteIds: torn.flatMap(({ firstNoteId, lastNoteId }) => [firstNoteId, lastNoteId]),
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
  if (torn.length === 0) return { ...common, grade: "clean", sentence: "No slur is broken." };
  const sentence =
    begins.length === 0
      ? "A slur is broken off at the cut."
      : ends.length === 0
        ? `A slur leads into ${sayBar(heard, cut.to.barIndex)} from bars that are left out.`
        : "Slurs are broken on both sides.";
  return { ...common, grade: "needs-a-touch", sentence };
}
