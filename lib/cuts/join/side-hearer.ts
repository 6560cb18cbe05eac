import { cutIntoBeats, type Frame } from "@/lib/harmony/frames";
import { allKeys } from "@/lib/harmony/key";
import { logTable } from "@/lib/harmony/key-fit";
import { kostkaPayne } from "@/lib/harmony/key-profiles";
import type { Bar } from "@/lib/score/bar";
import type { Position } from "@/lib/score/position";
import { addQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { findLanes, type LaneNote, type Lanes } from "./lanes";
import { hearLoneChord } from "./lone-chord";
import type { Side } from "./side";
import { findSpanningSigns, lastAtOrBefore, type SpanningSigns } from "./spanning-signs";
import { findTicks, type Ticks } from "./ticks";
import { makeWindow, type Window } from "./window";

const logs = logTable(kostkaPayne);

/** A beat in ticks, with what sounds in it. */
interface Beat {
  readonly onset: number;
  readonly end: number;
  readonly notes: readonly LaneNote[];
}

/** Hears one side of any place of a score; what was heard once is kept. */
export class SideHearer {
  readonly ticks: Ticks;
  readonly lanes: Lanes;
  readonly signs: SpanningSigns;
  readonly frames: readonly Frame[];
  private readonly beats: readonly Beat[];
  private readonly beatOnsets: readonly number[];
  /** By beat: sums of what all beats before say against each key. */
  private readonly keySums: readonly Float64Array[];
  private readonly windows = new Map<string, Window>();
  private readonly befores = new Map<string, Side | null>();
  private readonly afters = new Map<string, Side | null>();

  constructor(readonly score: Score) {
    this.ticks = findTicks(score);
    this.lanes = findLanes(score, this.ticks);
    this.signs = findSpanningSigns(score, this.lanes.lanes, this.ticks);
    this.frames = cutIntoBeats(score);
    this.beats = this.layBeats();
    this.beatOnsets = this.beats.map(({ onset }) => onset);
    this.keySums = this.sumKeys();
  }

  /** What stands before a place; null at the beginning of the piece. */
  before(position: Position): Side | null {
    return this.keep(this.befores, position, (time, bar) => (time > 0 ? this.hearBefore(time, bar) : null));
  }

  /** What begins with a place; null at the end of the piece. */
  after(position: Position): Side | null {
    return this.keep(this.afters, position, (time, bar) =>
      time < (this.beats.at(-1)?.end ?? 0) ? this.hearAfter(time, bar) : null,
    );
  }

  timeOf({ barIndex, offset }: Position): number {
    const bar = this.score.bars[barIndex];
    if (!bar) throw new RangeError(`No bar with index ${barIndex}`);
    return this.ticks(addQuarters(bar.start, offset));
  }

  /** Notes that sound between two times, at least these. */
  notesBetween(from: number, to: number): Set<LaneNote> {
    const found = new Set<LaneNote>();
    for (let index = Math.max(0, this.beatAt(from)); index < this.beats.length; index += 1) {
      const beat = this.beats[index] as Beat;
      if (beat.onset >= to) break;
      for (const note of beat.notes) found.add(note);
    }
    return found;
  }

  private keep(
    kept: Map<string, Side | null>,
    position: Position,
    hear: (time: number, bar: Bar) => Side | null,
  ): Side | null {
    const { barIndex, offset } = position;
    const name = `${barIndex}:${offset.num}/${offset.den}`;
    const known = kept.get(name);
    const bar = this.score.bars[barIndex];
    if (known !== undefined || !bar) return known ?? null;
    const side = hear(this.timeOf(position), bar);
    kept.set(name, side);
    return side;
  }

  private beatAt(time: number): number {
    return lastAtOrBefore(this.beatOnsets, time);
  }

  private layBeats(): Beat[] {
    const times = this.frames.map(({ onset, end }) => ({ onset: this.ticks(onset), end: this.ticks(end) }));
    const onsets = times.map(({ onset }) => onset);
    const inBeats: LaneNote[][] = times.map(() => []);
    for (const note of this.lanes.notes) {
      for (let index = lastAtOrBefore(onsets, note.onset); index < times.length; index += 1) {
        const beat = times[index];
        if (!beat || beat.onset >= note.end) break;
        inBeats[index]?.push(note);
      }
    }
    return times.map((time, index) => ({ ...time, notes: inBeats[index] ?? [] }));
  }

  private sumKeys(): Float64Array[] {
    const sums: Float64Array[] = [new Float64Array(allKeys.length)];
    for (const { notes } of this.beats) {
      const mask = notes.reduce((all, { pitchClass }) => all | (1 << pitchClass), 0);
      const present = Array.from({ length: 12 }, (_, p) => p).filter((p) => (mask >> p) & 1);
      const before = sums.at(-1) as Float64Array;
      const root = Math.sqrt(Math.max(1, present.length));
      sums.push(
        before.map((sum, key) => {
          const against = present.reduce((all, p) => all + ((logs[key] as Int32Array)[p] as number), 0);
          return sum + Math.round(against / root);
        }),
      );
    }
    return sums;
  }

  private keyCosts(fromBeat: number, toBeat: number): Int32Array {
    const [from, to] = [Math.max(0, fromBeat), Math.min(this.beats.length, toBeat)];
    const [first, last] = [this.keySums[from] as Float64Array, this.keySums[to] as Float64Array];
    return Int32Array.from(last, (sum, key) => sum - (first[key] as number));
  }

  window(from: number, to: number): Window {
    const name = `${from}:${to}`;
    const known = this.windows.get(name);
    if (known) return known;
    const made = makeWindow(this.notesBetween(from, to), this.lanes.lanes.length, from, to);
    this.windows.set(name, made);
    return made;
  }

  private hearBefore(time: number, bar: Bar): Side {
    const length = this.barLengthBefore(time, bar);
    const beatIndex = this.beatAt(time - 1);
    const beat = this.beats[beatIndex] as Beat;
    const inBar = [...this.notesBetween(Math.max(0, time - length), time)].filter(
      ({ onset }) => onset < time,
    );
    const last = (notes: readonly LaneNote[]) => {
      const end = notes.reduce((latest, note) => Math.max(latest, Math.min(note.end, time)), 0);
      return notes.filter((note) => Math.min(note.end, time) === end);
    };
    const inBeat = beat.notes.filter(({ onset }) => onset < time);
    const perBar = Math.max(1, Math.round(length / Math.max(1, beat.end - beat.onset)));
    return {
      ...this.describe(last(inBar), inBar, last, time),
      sounds: inBeat.some(({ end }) => end >= time),
      ...this.describeBeat(inBeat),
      window: this.window(time - length, time),
      farWindow: time - 2 * length >= 0 ? this.window(time - 2 * length, time - length) : null,
      level: this.levelAt(time - 1),
      chord: hearLoneChord(inBeat, Math.max(beat.onset, time - (beat.end - beat.onset)), time),
      keyCosts: this.keyCosts(beatIndex + 1 - 2 * perBar, beatIndex + 1),
      signature: this.signatureBefore(time, bar),
    };
  }

  private hearAfter(time: number, bar: Bar): Side {
    const length = this.ticks(bar.metreLength);
    const beatIndex = this.beatAt(time);
    const beat = this.beats[beatIndex] as Beat;
    const inBar = [...this.notesBetween(time, time + length)].filter(
      ({ onset, end }) => end > time && onset < time + length,
    );
    const first = (notes: readonly LaneNote[]) => {
      const onset = notes.reduce(
        (earliest, note) => Math.min(earliest, Math.max(note.onset, time)),
        Number.POSITIVE_INFINITY,
      );
      return notes.filter((note) => Math.max(note.onset, time) === onset);
    };
    const inBeat = beat.notes.filter(({ end }) => end > time);
    const perBar = Math.max(1, Math.round(length / Math.max(1, beat.end - beat.onset)));
    return {
      ...this.describe(first(inBar), inBar, first, time),
      sounds: inBeat.some(({ onset }) => onset <= time),
      ...this.describeBeat(inBeat),
      window: this.window(time, time + length),
      farWindow: null,
      level: this.levelAt(time),
      chord: hearLoneChord(inBeat, time, beat.end),
      keyCosts: this.keyCosts(beatIndex, beatIndex + 2 * perBar),
      signature: bar.key.fifths ?? Number.NaN,
    };
  }

  private describe(
    edge: readonly LaneNote[],
    inBar: readonly LaneNote[],
    nearest: (notes: readonly LaneNote[]) => LaneNote[],
    time: number,
  ): Pick<Side, "pitches" | "mask" | "held" | "laneTop" | "slurs" | "hairpin"> {
    const pitches = [...new Set(edge.map(({ midi }) => midi))].sort((a, b) => a - b);
    const held = inBar
      .filter(({ onset, end }) => onset < time && end > time)
      .map(({ lane, midi }) => lane * 128 + midi)
      .sort((a, b) => a - b);
    const byLane: LaneNote[][] = this.lanes.lanes.map(() => []);
    for (const note of inBar) byLane[note.lane]?.push(note);
    const tops = byLane.map((notes) => nearest(notes).reduce((top, { midi }) => Math.max(top, midi), 0));
    const across = ({ from, to }: { from: number; to: number }) => from < time && to >= time;
    const hairpin = this.signs.hairpins.find((span) => span.from < time && span.to > time);
    return {
      pitches: Uint8Array.from(pitches),
      mask: pitches.reduce((mask, midi) => mask | (1 << (midi % 12)), 0),
      held: Int32Array.from(held),
      laneTop: Uint8Array.from(tops),
      slurs: this.signs.slurs.filter(across).reduce((bits, { lane }) => bits | (1 << (lane % 32)), 0),
      hairpin: hairpin ? (hairpin.type === "crescendo" ? 1 : -1) : 0,
    };
  }

  private describeBeat(notes: readonly LaneNote[]): Pick<Side, "lanes" | "centroid"> {
    const sum = notes.reduce((all, { midi }) => all + midi, 0);
    return {
      lanes: notes.reduce((bits, { lane }) => bits | (1 << (lane % 32)), 0),
      centroid: notes.length === 0 ? Number.NaN : sum / notes.length,
    };
  }

  /** Length of the bar in which the music before a place lies. */
  private barLengthBefore(time: number, bar: Bar): number {
    const before = this.score.bars[bar.index - 1];
    return this.ticks(this.ticks(bar.start) < time || !before ? bar.metreLength : before.metreLength);
  }

  private signatureBefore(time: number, bar: Bar): number {
    const before = this.score.bars[bar.index - 1];
    const holds = this.ticks(bar.start) < time || !before ? bar : before;
    return holds.key.fifths ?? Number.NaN;
  }

  private levelAt(time: number): number {
    let [sum, count] = [0, 0];
    for (const { onsets, levels } of this.signs.levels) {
      const level = levels[lastAtOrBefore(onsets, time)]?.level;
      if (level === undefined) continue;
      sum += level;
      count += 1;
    }
    return count === 0 ? Number.NaN : sum / count;
  }
}
