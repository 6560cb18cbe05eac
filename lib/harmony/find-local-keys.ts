import type { Position } from "@/lib/score/position";
import type { Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { allChords, type Chord } from "./chord-shapes";
import { type HeardFrame, hearFrame } from "./heard-frame";
import { defaultHearingCosts, type HearingCosts } from "./hearing-costs";
import { buildJointModel } from "./joint-model";
import { findJointPath, type JointPath } from "./joint-path";
import { allKeys, type Key } from "./key";
import { fifthsFromSignature, type LogTable, logTable, spellingOutside } from "./key-fit";
import { type KeyProfiles, kostkaPayne } from "./key-profiles";
import { type FrameOptions, type PitchClassFrame, pitchClassesPerQuarter } from "./pitch-class-frames";
import { sayFifths } from "./say-key";
import { spellTonics } from "./spell-tonics";

export interface LocalKeyOptions extends FrameOptions {
  /** Shares of segments that contain each pitch class; Kostka–Payne when left out. */
  readonly profiles?: KeyProfiles;
  readonly costs?: HearingCosts;
}

/** The key heard in one frame, an estimate. Written time, end exclusive. */
export interface LocalKey extends Key {
  readonly at: Position;
  readonly onset: Quarters;
  readonly end: Quarters;
  /** Place of the tonic on the line of fifths, as the notes are spelled: C is 0, B flat −2. */
  readonly tonicFifths: number;
  readonly confidence: "clear" | "likely" | "open";
  readonly evidence: KeyEvidence;
}

export interface KeyEvidence {
  /** The next best key here, and what it would have cost more, in the units of `HearingCosts`. */
  readonly runnerUp: Key;
  readonly margin: number;
  /** Sounding pitch classes that suit this key better than the runner-up, or worse, the most telling first. */
  readonly speakFor: readonly number[];
  readonly speakAgainst: readonly number[];
  /** The chord that was heard together with the key; null in silence. */
  readonly chord: Chord | null;
  /** Fifths between the key and the printed signature. */
  readonly fifthsFromSignature: number;
  /** Spelled notes that the key does not use, such as "G♯" in C minor. */
  readonly foreignSpellings: readonly string[];
}

/**
 * What the margin says. A change to another key and back costs about 12,000: a runner-up that would cost less than
 * half of the way there is no clear one. Source: common sense on the measured pieces.
 */
const [clearMargin, likelyMargin] = [6000, 2000];

function confidenceOf(margin: number): LocalKey["confidence"] {
  if (margin >= clearMargin) return "clear";
  return margin >= likelyMargin ? "likely" : "open";
}

/** Of equal runners-up the one nearest above the tonic. */
function findRunnerUp(excess: Int32Array, key: Key, keyIndex: number): { index: number; margin: number } {
  const distance = (index: number) => {
    const other = allKeys[index] as Key;
    return ((other.tonic - key.tonic + 12) % 12) * 2 + (other.mode === key.mode ? 0 : 1);
  };
  const others = [...excess.keys()].filter((index) => index !== keyIndex);
  const cost = (index: number) => excess[index] as number;
  const index = others.reduce((best, other) => {
    const isBetter =
      cost(other) < cost(best) || (cost(other) === cost(best) && distance(other) < distance(best));
    return isBetter ? other : best;
  });
  return { index, margin: cost(index) };
}

/** Differences below a twentieth are no evidence either way. */
const leastDifference = 50;

function weighPitchClasses(mask: number, own: Int32Array, other: Int32Array, tonic: number) {
  const gain = (pitchClass: number) => (other[pitchClass] as number) - (own[pitchClass] as number);
  const fromTonic = (pitchClass: number) => (pitchClass - tonic + 12) % 12;
  const sounding = Array.from({ length: 12 }, (_, pitchClass) => pitchClass)
    .filter((pitchClass) => (mask >> pitchClass) & 1)
    .sort((a, b) => Math.abs(gain(b)) - Math.abs(gain(a)) || fromTonic(a) - fromTonic(b));
  return {
    speakFor: sounding.filter((pitchClass) => gain(pitchClass) >= leastDifference),
    speakAgainst: sounding.filter((pitchClass) => gain(pitchClass) <= -leastDifference),
  };
}

interface Reading {
  readonly score: Score;
  readonly frames: readonly PitchClassFrame[];
  readonly heard: readonly HeardFrame[];
  readonly path: JointPath;
  readonly logs: LogTable;
  readonly tonics: readonly number[];
}

function describe(reading: Reading, index: number): LocalKey {
  const { score, frames, heard, path, logs, tonics } = reading;
  const [frame, heardFrame] = [frames[index] as PitchClassFrame, heard[index] as HeardFrame];
  const keyIndex = path.keys[index] as number;
  const key = allKeys[keyIndex] as Key;
  const runnerUp = findRunnerUp(path.keyExcess[index] as Int32Array, key, keyIndex);
  const signature = score.bars[frame.at.barIndex]?.key ?? { fifths: null, mode: null };
  const tonicFifths = tonics[index] as number;
  const [own, other] = [logs[keyIndex] as Int32Array, logs[runnerUp.index] as Int32Array];
  return {
    ...key,
    at: frame.at,
    onset: frame.onset,
    end: frame.end,
    tonicFifths,
    confidence: confidenceOf(runnerUp.margin),
    evidence: {
      runnerUp: allKeys[runnerUp.index] as Key,
      margin: runnerUp.margin,
      ...weighPitchClasses(heardFrame.mask, own, other, key.tonic),
      chord: heardFrame.count === 0 ? null : (allChords[path.chords[index] as number] as Chord),
      fifthsFromSignature: fifthsFromSignature(key, signature),
      foreignSpellings: heardFrame.spellings
        .filter((fifths) => spellingOutside([fifths], key, tonicFifths) > 0)
        .map(sayFifths),
    },
  };
}

/**
 * The local key of each quarter note of the written order: an estimate. Key and chord are heard together, as the
 * cheapest row of both: for a key speak the presence of its pitch classes, the spelling of the notes, softly the
 * printed signature, and chords that belong to it; changing the key costs more the further it goes. In silence the key
 * goes on.
 *
 * @throws RangeError if `options.step` is not positive or a profile holds no shares between 0 and 1.
 * Source: hidden-state search over keys as in Temperley, Music and Probability (2007); chords as in Raphael and
 * Stoddard, “Functional harmonic analysis using probabilistic models”, Computer Music Journal 28 (2004); the costs are
 * this project's own.
 */
export function findLocalKeys(score: Score, options: LocalKeyOptions = {}): LocalKey[] {
  const frames = pitchClassesPerQuarter(score, options);
  if (frames.length === 0) return [];
  const heard = frames.map(hearFrame);
  const logs = logTable(options.profiles ?? kostkaPayne);
  const path = findJointPath(
    buildJointModel(score, frames, heard, logs, options.costs ?? defaultHearingCosts),
  );
  const tonics = spellTonics(score, frames, heard, path.keys);
  const reading = { score, frames, heard, path, logs, tonics };
  return frames.map((_, index) => describe(reading, index));
}
