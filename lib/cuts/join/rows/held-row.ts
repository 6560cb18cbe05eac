import type { JoinEdges } from "../join-edges";
import { sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import type { LaneNote } from "../lanes";
import { sayCount } from "../say-music";

/** Notes that sound across a time. */
function heldAcross({ heard: { sides } }: JoinEdges, time: number): LaneNote[] {
  if (time <= 0) return [];
  return sides.notesBetween(time - 1, time).filter(({ onset, end }) => onset < time && end > time);
}

const isOneOf = (pitches: Uint8Array | undefined, { midi }: LaneNote): boolean =>
  pitches?.includes(midi) ?? false;

/** A note is torn when the other side does not have its pitch at the join. */
export function findTorn(edges: JoinEdges): { broken: LaneNote[]; struckAgain: LaneNote[] } {
  const { before, after, fromTicks, toTicks } = edges;
  return {
    broken: heldAcross(edges, fromTicks).filter((note) => !isOneOf(after?.pitches, note)),
    struckAgain: heldAcross(edges, toTicks).filter((note) => !isOneOf(before?.pitches, note)),
  };
}

/** An outer voice that is held into the landing is a tone that was prepared in bars that are gone. */
function isOuter({ after }: JoinEdges, { midi }: LaneNote): boolean {
  return midi === after?.pitches.at(-1) || midi === after?.pitches[0];
}

/** Ties and long notes that the cut breaks. */
export function assessHeld(edges: JoinEdges): JoinRow | null {
  const { heard, cut, fromTicks, toTicks } = edges;
  const { broken, struckAgain } = findTorn(edges);
  const all = [...heldAcross(edges, fromTicks), ...heldAcross(edges, toTicks)];
  const common = {
    kind: "held" as const,
    figures: { broken: broken.length, struckAgain: struckAgain.length, held: all.length },
    noteIds: [...new Set([...broken, ...struckAgain].map(({ id }) => id))],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
  const into = sayBar(heard, cut.to.barIndex);
  if (struckAgain.some((note) => isOuter(edges, note))) {
    const count = sayCount(struckAgain.length, "note");
    const sentence = `A tie is broken: ${count} held into ${into} would be struck again, without what prepares ${struckAgain.length === 1 ? "it" : "them"}.`;
    return { ...common, grade: "rough", sentence };
  }
  if (broken.length > 0 || struckAgain.length > 0) {
    const parts = [
      ...(broken.length > 0
        ? [`${sayCount(broken.length, "note")} stop${broken.length === 1 ? "s" : ""} at the cut`]
        : []),
      ...(struckAgain.length > 0
        ? [
            `${sayCount(struckAgain.length, "inner note")} held into ${into} ${struckAgain.length === 1 ? "is" : "are"} struck again`,
          ]
        : []),
    ];
    const text = parts.join("; ");
    return {
      ...common,
      grade: "needs-a-touch",
      sentence: `${text.charAt(0).toUpperCase()}${text.slice(1)}.`,
    };
  }
  const sentence =
    all.length > 0 ? "What is held before the cut sounds on after it." : "Nothing is held across the join.";
  return { ...common, grade: "clean", sentence };
}
