import { findSoundingNotes } from "@/lib/harmony/sounding-notes";
import type { Score } from "@/lib/score/score";
import type { Ticks } from "./ticks";

/** One staff of one part: what moves as a line of its own. */
export interface Lane {
  readonly partId: string;
  readonly staff: number;
}

/** A note as it is heard, ties joined, with its times in ticks. */
export interface LaneNote {
  readonly id: string;
  readonly lane: number;
  readonly onset: number;
  readonly end: number;
  readonly midi: number;
  readonly pitchClass: number;
  /** Place on the line of fifths. */
  readonly fifths: number;
}

export interface Lanes {
  readonly lanes: readonly Lane[];
  /** By onset, then from the lowest. */
  readonly notes: readonly LaneNote[];
}

/** The staves of a score and what is heard on each. */
export function findLanes(score: Score, ticks: Ticks): Lanes {
  const lanes: Lane[] = [];
  const laneOf = new Map<string, number>();
  for (const part of score.parts) {
    const places = new Map<number, number>();
    for (const { id, staff } of part.notes) {
      const known = places.get(staff);
      const lane = known ?? lanes.length;
      if (known === undefined) {
        places.set(staff, lane);
        lanes.push({ partId: part.id, staff });
      }
      laneOf.set(id, lane);
    }
  }
  const notes = findSoundingNotes(score).map(({ id, onset, end, midi, pitchClass, fifths }) => ({
    id,
    lane: laneOf.get(id) ?? 0,
    onset: ticks(onset),
    end: ticks(end),
    midi,
    pitchClass,
    fifths,
  }));
  return { lanes, notes };
}
