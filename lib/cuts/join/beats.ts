import { allKeys } from "@/lib/harmony/key";
import { logTable } from "@/lib/harmony/key-fit";
import { kostkaPayne } from "@/lib/harmony/key-profiles";
import type { LaneNote } from "./lanes";
import { lastAtOrBefore } from "./spanning-signs";

const logs = logTable(kostkaPayne);

/** A beat in ticks, with what sounds in it. */
export interface Beat {
  readonly onset: number;
  readonly end: number;
  /** By onset, then from the lowest. */
  readonly notes: readonly LaneNote[];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What lies over each beat, in the order given; both ends of a stretch count. */
export function layOverBeats<T extends Stretch>(beats: Beats, stretches: readonly T[]): readonly T[][] {
  const over: T[][] = beats.list.map(() => []);
  for (const stretch of stretches) {
    for (let index = Math.max(0, beats.indexAt(stretch.from)); index < over.length; index += 1) {
      if ((beats.list[index] as Beat).onset > stretch.to) break;
      over[index]?.push(stretch);
    }
  }
  return over;
}

/** The beats of a piece, which tile it, with quick ways to what sounds when. */
export class Beats {
  readonly list: readonly Beat[];
  private readonly onsets: readonly number[];
  /** By beat: sums of what all beats before say against each key. */
  private readonly keySums: readonly Float64Array[];

  constructor(
    times: readonly { readonly onset: number; readonly end: number }[],
    notes: readonly LaneNote[],
  ) {
    this.onsets = times.map(({ onset }) => onset);
    const inBeats: LaneNote[][] = times.map(() => []);
    for (const note of notes) {
      for (let index = Math.max(0, this.indexAt(note.onset)); index < times.length; index += 1) {
        if ((this.onsets[index] as number) >= note.end) break;
        inBeats[index]?.push(note);
      }
    }
    this.list = times.map((time, index) => ({ ...time, notes: inBeats[index] ?? [] }));
    this.keySums = sumKeys(this.list);
  }

  /** Index of the beat that holds a time; −1 before the first. */
  indexAt(time: number): number {
    return lastAtOrBefore(this.onsets, time);
  }

  /** Notes that sound between two times, and perhaps a few more of the beats at both ends. */
  notesBetween(from: number, to: number): LaneNote[] {
    const first = Math.max(0, this.indexAt(from));
    const found: LaneNote[] = [...(this.list[first]?.notes ?? [])];
    for (let index = first + 1; index < this.list.length; index += 1) {
      const beat = this.list[index] as Beat;
      if (beat.onset >= to) break;
      for (const note of beat.notes) if (note.onset >= beat.onset) found.push(note);
    }
    return found;
  }

  /** By key: what beats say against it, in thousandths. `to` exclusive; beats outside the piece say nothing. */
  keyCosts(fromBeat: number, toBeat: number): Int32Array {
    const [from, to] = [Math.max(0, fromBeat), Math.min(this.list.length, toBeat)];
    const [first, last] = [this.keySums[from] as Float64Array, this.keySums[to] as Float64Array];
    const costs = new Int32Array(last.length);
    for (let key = 0; key < costs.length; key += 1)
      costs[key] = (last[key] as number) - (first[key] as number);
    return costs;
  }
}

function sumKeys(beats: readonly Beat[]): Float64Array[] {
  const sums: Float64Array[] = [new Float64Array(allKeys.length)];
  for (const { notes } of beats) {
    const mask = notes.reduce((all, { pitchClass }) => all | (1 << pitchClass), 0);
    const present = Array.from({ length: 12 }, (_, p) => p).filter((p) => (mask >> p) & 1);
    const root = Math.sqrt(Math.max(1, present.length));
    const before = sums.at(-1) as Float64Array;
    sums.push(
      before.map((sum, key) => {
        const log = logs[key] as Int32Array;
        return sum + Math.round(present.reduce((all, p) => all + (log[p] as number), 0) / root);
      }),
    );
  }
  return sums;
}
