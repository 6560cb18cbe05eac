import type { LaneNote } from "./lanes";
import type { Side } from "./side";

type Edge = Pick<Side, "pitches" | "mask" | "held" | "laneTop">;

/** From the lowest, each once. */
function sortOnce(pitches: readonly number[]): Uint8Array {
  const sorted = new Uint8Array(pitches).sort();
  let count = 0;
  for (const pitch of sorted) {
    if (count === 0 || sorted[count - 1] !== pitch) sorted[count++] = pitch;
  }
  return count === sorted.length ? sorted : sorted.slice(0, count);
}

/**
 * What is nearest to a place, in all and by lane.
 *
 * @param notes of the bar's length on one side.
 * @param nearness of a note to the place; equal ones stand together.
 */
export function describeEdge(
  notes: readonly LaneNote[],
  laneCount: number,
  time: number,
  nearness: (note: LaneNote) => number,
): Edge {
  const laneTop = new Uint8Array(laneCount);
  const laneNearest = new Array<number>(laneCount).fill(Number.NEGATIVE_INFINITY);
  const held: number[] = [];
  let nearest = Number.NEGATIVE_INFINITY;
  let pitches: number[] = [];
  for (const note of notes) {
    const { lane, midi, onset, end } = note;
    const near = nearness(note);
    if (near > nearest) [nearest, pitches] = [near, []];
    if (near === nearest) pitches.push(midi);
    const known = laneNearest[lane] as number;
    if (near >= known) {
      laneTop[lane] = near > known ? midi : Math.max(laneTop[lane] as number, midi);
      laneNearest[lane] = near;
    }
    if (onset < time && end > time) held.push(lane * 128 + midi);
  }
  return {
    pitches: sortOnce(pitches),
    mask: pitches.reduce((mask, midi) => mask | (1 << (midi % 12)), 0),
    held: new Int32Array(held).sort(),
    laneTop,
  };
}

/** Lanes and mean pitch of what sounds in a beat. */
export function describeBeat(notes: readonly LaneNote[]): Pick<Side, "lanes" | "centroid"> {
  let [lanes, sum] = [0, 0];
  for (const { lane, midi } of notes) {
    lanes |= 1 << (lane % 32);
    sum += midi;
  }
  return { lanes, centroid: notes.length === 0 ? Number.NaN : sum / notes.length };
}
