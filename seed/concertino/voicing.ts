import type { Chord } from "./harmony";
import { midiOf, type Pitch } from "./pitch";

/** What the inner voices of one chord have to fit: the outer voices that sound with them. */
export interface VoicingFrame {
  readonly chord: Chord;
  readonly bass: number | undefined;
  readonly melody: number | undefined;
}

/** Lowest and highest MIDI number that a voice may take. */
export interface VoiceRange {
  readonly low: number;
  readonly high: number;
}

type Voicing = readonly Pitch[];

/**
 * Leads inner voices through a row of chords: for each frame one pitch per range, highest voice first.
 *
 * The cheapest path through all voicings: small steps, complete chords, no doubled leading tone or seventh, no
 * parallel fifths or octaves with each other or with the outer voices. Source: common practice; weights by ear.
 *
 * @throws RangeError if a range holds no tone of a chord.
 */
export function leadVoices(frames: readonly VoicingFrame[], ranges: readonly VoiceRange[]): Voicing[] {
  const layers = frames.map((frame) => voicingsOf(frame, ranges));
  let paths: Path[] = [];
  layers.forEach((layer, i) => {
    const frame = frames[i] as VoicingFrame;
    const before = frames[i - 1];
    paths = layer.map((voicing) => cheapestPathTo(voicing, frame, paths, before));
  });
  const best = cheapest(paths);
  return best ? unwind(best) : [];
}

interface Path {
  readonly voicing: Voicing;
  readonly cost: number;
  readonly before: Path | undefined;
}

function cheapestPathTo(
  voicing: Voicing,
  frame: VoicingFrame,
  paths: readonly Path[],
  before: VoicingFrame | undefined,
): Path {
  const own = costOfVoicing(voicing, frame);
  if (!before) return { voicing, cost: own, before: undefined };
  const options = paths.map((path) => ({
    voicing,
    cost: path.cost + own + costOfMove(path.voicing, before, voicing, frame),
    before: path,
  }));
  return cheapest(options) ?? { voicing, cost: own, before: undefined };
}

function cheapest(paths: readonly Path[]): Path | undefined {
  return paths.reduce<Path | undefined>(
    (best, path) => (!best || path.cost < best.cost ? path : best),
    undefined,
  );
}

function unwind(path: Path): Voicing[] {
  const voicings: Voicing[] = [];
  for (let at: Path | undefined = path; at; at = at.before) voicings.unshift(at.voicing);
  return voicings;
}

function voicingsOf({ chord }: VoicingFrame, ranges: readonly VoiceRange[]): Voicing[] {
  let voicings: Pitch[][] = [[]];
  for (const range of ranges) {
    const tones = tonesWithin(chord, range);
    voicings = voicings.flatMap((voicing) =>
      tones.filter((tone) => isBelow(tone, voicing.at(-1))).map((tone) => [...voicing, tone]),
    );
  }
  if (voicings.length === 0)
    throw new RangeError(`No voicing of ${chord.symbol} in ${JSON.stringify(ranges)}`);
  return voicings;
}

function isBelow(tone: Pitch, upper: Pitch | undefined): boolean {
  return !upper || midiOf(tone) < midiOf(upper);
}

function tonesWithin(chord: Chord, { low, high }: VoiceRange): Pitch[] {
  return chord.tones.flatMap((tone) =>
    [1, 2, 3, 4, 5, 6, 7]
      .map((octave) => ({ ...tone, octave }))
      .filter((pitch) => midiOf(pitch) >= low && midiOf(pitch) <= high),
  );
}

function costOfVoicing(voicing: Voicing, { chord, bass, melody }: VoicingFrame): number {
  const inner = voicing.map(midiOf);
  const outer = [bass, melody].filter((note): note is number => note !== undefined);
  const sounding = [...inner, ...outer].map((note) => note % 12);
  let cost = 0;
  chord.tones.forEach((tone, i) => {
    const count = sounding.filter((pitchClass) => pitchClass === midiOf(tone) % 12).length;
    if (count === 0) cost += [6, 10, 2, 8][i] ?? 0;
    if (count > 1 && (i === 3 || midiOf(tone) % 12 === chord.leadingTone)) cost += 14;
    if (count > 2) cost += 3;
  });
  const gaps = inner.slice(1).map((note, i) => (inner[i] ?? note) - note);
  cost += gaps.filter((gap) => gap > 9).length * 4 + gaps.filter((gap) => gap < 3).length * 2;
  if (bass !== undefined) cost += inner.filter((note) => note <= bass).length * 30;
  if (melody !== undefined) cost += inner.filter((note) => note > melody).length * 6;
  return cost;
}

function costOfMove(from: Voicing, before: VoicingFrame, to: Voicing, now: VoicingFrame): number {
  const start = [before.melody, ...from.map(midiOf), before.bass];
  const end = [now.melody, ...to.map(midiOf), now.bass];
  let cost = to.reduce((sum, pitch, i) => sum + Math.abs(midiOf(pitch) - midiOf(from[i] ?? pitch)), 0);
  for (let i = 0; i < start.length; i++) {
    for (let j = i + 1; j < start.length; j++) {
      if (isParallel(start[i], start[j], end[i], end[j])) cost += 16;
    }
  }
  return cost;
}

function isParallel(
  upper: number | undefined,
  lower: number | undefined,
  upperNext: number | undefined,
  lowerNext: number | undefined,
): boolean {
  if (upper === undefined || lower === undefined || upperNext === undefined || lowerNext === undefined)
    return false;
  const interval = (upper - lower + 120) % 12;
  const next = (upperNext - lowerNext + 120) % 12;
  return upper !== upperNext && interval === next && (interval === 0 || interval === 7);
}
