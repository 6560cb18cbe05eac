import { cutIntoBeats, type Frame } from "@/lib/harmony/frames";
import type { Bar } from "@/lib/score/bar";
import type { Position } from "@/lib/score/position";
import { addQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type Beat, Beats, layOverBeats } from "./beats";
import { describeBeat, describeEdge } from "./describe-edge";
import { findLanes, type LaneNote, type Lanes } from "./lanes";
import { hearLoneChord } from "./lone-chord";
import type { Side } from "./side";
import {
  findSpanningSigns,
  type HairpinSpan,
  lastAtOrBefore,
  type SlurSpan,
  type SpanningSigns,
} from "./spanning-signs";
import { findTicks, type Ticks } from "./ticks";
import { makeWindow, type Window } from "./window";

/** Hears one side of any place of a score; what was heard once is kept. */
export class SideHearer {
  readonly ticks: Ticks;
  readonly lanes: Lanes;
  readonly signs: SpanningSigns;
  readonly frames: readonly Frame[];
  private readonly beats: Beats;
  private readonly slurs: readonly SlurSpan[][];
  private readonly hairpins: readonly HairpinSpan[][];
  /** By where they begin, then by where they end. */
  private readonly windows = new Map<number, Map<number, Window>>();
  private readonly befores = new Map<number, Side | null>();
  private readonly afters = new Map<number, Side | null>();

  constructor(readonly score: Score) {
    this.ticks = findTicks(score);
    this.lanes = findLanes(score, this.ticks);
    this.signs = findSpanningSigns(score, this.lanes.lanes, this.ticks);
    this.frames = cutIntoBeats(score);
    const times = this.frames.map(({ onset, end }) => ({ onset: this.ticks(onset), end: this.ticks(end) }));
    this.beats = new Beats(times, this.lanes.notes);
    this.slurs = layOverBeats(this.beats, this.signs.slurs);
    this.hairpins = layOverBeats(this.beats, this.signs.hairpins);
  }

  /** What stands before a place; null at the beginning of the piece. */
  before(position: Position): Side | null {
    return keep(this.befores, this.timeOf(position), (time) =>
      time > 0 ? this.hearBefore(time, this.barOf(position)) : null,
    );
  }

  /** What begins with a place; null at the end of the piece. */
  after(position: Position): Side | null {
    const end = this.beats.list.at(-1)?.end ?? 0;
    return keep(this.afters, this.timeOf(position), (time) =>
      time < end ? this.hearAfter(time, this.barOf(position)) : null,
    );
  }

  /** In ticks from the start of the piece. */
  timeOf(position: Position): number {
    return this.ticks(addQuarters(this.barOf(position).start, position.offset));
  }

  /** Notes that sound between two times in ticks, and perhaps a few more of the beats at both ends. */
  notesBetween(from: number, to: number): LaneNote[] {
    return this.beats.notesBetween(from, to);
  }

  /** The music between two times in ticks, slot by slot. */
  window(from: number, to: number): Window {
    const fromHere = keep(this.windows, from, () => new Map<number, Window>());
    return keep(fromHere, to, () => {
      return makeWindow(this.beats.notesBetween(from, to), this.lanes.lanes.length, from, to);
    });
  }

  private barOf({ barIndex }: Position): Bar {
    const bar = this.score.bars[barIndex];
    if (!bar) throw new RangeError(`No bar with index ${barIndex}`);
    return bar;
  }

  private hearBefore(time: number, bar: Bar): Side {
    const holds = this.barBefore(time, bar);
    const length = this.ticks(holds.metreLength);
    const beatIndex = this.beats.indexAt(time - 1);
    const beat = this.beats.list[beatIndex] as Beat;
    const near = this.notesBetween(Math.max(0, time - length), time);
    const inBar = near.filter(({ onset }) => onset < time);
    const inBeat = beat.notes.filter(({ onset }) => onset < time);
    return {
      ...describeEdge(inBar, this.lanes.lanes.length, time, ({ end }) => Math.min(end, time)),
      ...describeBeat(inBeat),
      ...this.describeSigns(beatIndex, time),
      sounds: inBeat.some(({ end }) => end >= time),
      window: this.window(time - length, time),
      farWindow: time - 2 * length >= 0 ? this.window(time - 2 * length, time - length) : null,
      level: this.levelAt(time - 1),
      chord: hearLoneChord(inBeat, Math.max(beat.onset, time - (beat.end - beat.onset)), time),
      keyCosts: this.beats.keyCosts(beatIndex + 1 - 2 * beatsIn(length, beat), beatIndex + 1),
      signature: holds.key.fifths ?? Number.NaN,
    };
  }

  private hearAfter(time: number, bar: Bar): Side {
    const length = this.ticks(bar.metreLength);
    const beatIndex = this.beats.indexAt(time);
    const beat = this.beats.list[beatIndex] as Beat;
    const near = this.notesBetween(time, time + length);
    const inBar = near.filter(({ onset, end }) => end > time && onset < time + length);
    const inBeat = beat.notes.filter(({ end }) => end > time);
    return {
      ...describeEdge(inBar, this.lanes.lanes.length, time, ({ onset }) => -Math.max(onset, time)),
      ...describeBeat(inBeat),
      ...this.describeSigns(beatIndex, time),
      sounds: inBeat.some(({ onset }) => onset <= time),
      window: this.window(time, time + length),
      farWindow: null,
      level: this.levelAt(time),
      chord: hearLoneChord(inBeat, time, beat.end),
      keyCosts: this.beats.keyCosts(beatIndex, beatIndex + 2 * beatsIn(length, beat)),
      signature: bar.key.fifths ?? Number.NaN,
    };
  }

  /** Slurs and hairpins across a place, which touch the beat on either side of it. */
  private describeSigns(beatIndex: number, time: number): Pick<Side, "slurs" | "hairpin"> {
    let slurs = 0;
    for (const { from, to, lane } of this.slurs[beatIndex] ?? []) {
      if (from < time && to >= time) slurs |= 1 << (lane % 32);
    }
    const hairpin = this.hairpins[beatIndex]?.find(({ from, to }) => from < time && to > time);
    return { slurs, hairpin: hairpin ? (hairpin.type === "crescendo" ? 1 : -1) : 0 };
  }

  /** The bar in which the music before a place lies. */
  private barBefore(time: number, bar: Bar): Bar {
    const before = this.score.bars[bar.index - 1];
    return this.ticks(bar.start) < time || !before ? bar : before;
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

/** How many beats like this one a bar's length holds. */
const beatsIn = (length: number, { onset, end }: Beat): number =>
  Math.max(1, Math.round(length / Math.max(1, end - onset)));

/** What is known under a key, made when it is not. */
function keep<Key, Value>(known: Map<Key, Value>, key: Key, make: (key: Key) => Value): Value {
  const found = known.get(key);
  if (found !== undefined) return found;
  const made = make(key);
  known.set(key, made);
  return made;
}
