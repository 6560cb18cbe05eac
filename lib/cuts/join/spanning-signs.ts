import { findDynamics, type PartDynamics } from "@/lib/harmony/find-dynamics";
import type { Part } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import type { Lane } from "./lanes";
import type { Ticks } from "./ticks";

/** A slur from its first note to its last, in ticks. */
export interface SlurSpan {
  readonly lane: number;
  readonly from: number;
  readonly to: number;
  readonly firstNoteId: string;
  readonly lastNoteId: string;
}

/** A hairpin in ticks, end exclusive. */
export interface HairpinSpan {
  readonly partId: string;
  readonly from: number;
  readonly to: number;
  readonly type: "crescendo" | "diminuendo";
}

/** Printed levels of one part in ticks, by onset. */
export interface PartLevels {
  readonly partId: string;
  readonly onsets: readonly number[];
  readonly levels: readonly { readonly level: number; readonly mark: string }[];
}

export interface SpanningSigns {
  readonly slurs: readonly SlurSpan[];
  readonly hairpins: readonly HairpinSpan[];
  readonly levels: readonly PartLevels[];
}

function findSlurs(part: Part, laneOf: (staff: number) => number, ticks: Ticks): SlurSpan[] {
  const open = new Map<number, { from: number; id: string; lane: number }>();
  const slurs: SlurSpan[] = [];
  for (const note of part.notes) {
    for (const { number, type } of note.slurs.toSorted((a, b) => (a.type < b.type ? 1 : -1))) {
      const begun = open.get(number);
      if (type === "stop" && begun) {
        const to = ticks(note.onset);
        slurs.push({ lane: begun.lane, from: begun.from, to, firstNoteId: begun.id, lastNoteId: note.id });
        open.delete(number);
      }
      if (type === "start")
        open.set(number, { from: ticks(note.onset), id: note.id, lane: laneOf(note.staff) });
    }
  }
  return slurs;
}

function hairpinsOf(part: Part, { hairpins }: PartDynamics, ticks: Ticks): HairpinSpan[] {
  return hairpins.map(({ from, to, type }) => ({
    partId: part.id,
    from: ticks(from),
    to: ticks(to),
    type,
  }));
}

/** Slurs, hairpins and printed levels of all parts. */
export function findSpanningSigns(score: Score, lanes: readonly Lane[], ticks: Ticks): SpanningSigns {
  const laneIn = (part: Part) => (staff: number) =>
    lanes.findIndex((lane) => lane.partId === part.id && lane.staff === staff);
  const dynamics = score.parts.map((part) => ({ part, found: findDynamics(score, part) }));
  return {
    slurs: score.parts.flatMap((part) => findSlurs(part, laneIn(part), ticks)),
    hairpins: dynamics.flatMap(({ part, found }) => hairpinsOf(part, found, ticks)),
    levels: dynamics.map(({ part, found }) => ({
      partId: part.id,
      onsets: found.levels.map(({ onset }) => ticks(onset)),
      levels: found.levels,
    })),
  };
}

/** Index of the last of ordered times at or before `time`; −1 before the first. */
export function lastAtOrBefore(times: readonly number[], time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] as number) <= time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
