import type { Position } from "@/lib/score/position";
import type { Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { ChordJudge } from "./chord-fit";
import { type ChordFunction, chordInKeyCost, functionOf } from "./chord-in-key";
import { allChords, type Chord, chordQualities, chordShapes, dominantsInto, tonesOf } from "./chord-shapes";
import type { LocalKey } from "./find-local-keys";
import { cutIntoBeats, frameIndexAt } from "./frames";
import { type HeardFrame, hearFrame, startsBar } from "./heard-frame";
import { defaultHearingCosts, type HearingCosts } from "./hearing-costs";
import { findJointPath, type JointPath } from "./joint-path";
import { allKeys, type Key, keyNumber } from "./key";
import { type PitchClassFrame, weighFrames } from "./pitch-class-frames";
import { findSoundingNotes, type Listening } from "./sounding-notes";

export interface ChordOptions extends Listening {
  readonly costs?: HearingCosts;
}

/** The chord heard in one beat, an estimate. Written time, end exclusive. */
export interface LocalChord extends Chord {
  readonly at: Position;
  readonly onset: Quarters;
  readonly end: Quarters;
  readonly key: Key;
  /** Semitones from the tonic up to the root. */
  readonly degree: number;
  readonly function: ChordFunction;
  /** Pitch class of the lowest note in the beat. */
  readonly bass: number;
  /** 0 for root position, 1 for the third in the bass, and so on; null when the bass is no tone of the chord. */
  readonly inversion: number | null;
  readonly confidence: "clear" | "likely" | "open";
  readonly evidence: ChordEvidence;
}

export interface ChordEvidence {
  readonly runnerUp: Chord;
  /** What the runner-up would have cost more, in the units of `HearingCosts`. */
  readonly margin: number;
  /** Ids of sounding notes that are no tones of the chord. */
  readonly foreignNoteIds: readonly string[];
  /** Pitch classes of the chord that do not sound in this beat. */
  readonly missing: readonly number[];
}

/** About the cost of one missing tone makes it likely, of two foreign ones clear. Source: common sense. */
const [clearMargin, likelyMargin] = [3000, 800];

interface Beat {
  readonly frame: PitchClassFrame;
  readonly heard: HeardFrame;
  readonly key: Key;
}

const fromBass = ({ heard }: Beat, { root }: Chord): number => (root - (heard.bass ?? 0) + 12) % 12;

function rankOf(beat: Beat, chord: Chord): number {
  return fromBass(beat, chord) * chordQualities.length + chordQualities.indexOf(chord.quality);
}

function hearBeats(score: Score, keys: readonly LocalKey[], options: ChordOptions): Beat[] {
  const notes = findSoundingNotes(score, options);
  return weighFrames(cutIntoBeats(score), notes).flatMap((frame) => {
    const key = keys[Math.max(0, frameIndexAt(keys, frame.onset))];
    return key ? [{ frame, heard: hearFrame(frame), key: { tonic: key.tonic, mode: key.mode } }] : [];
  });
}

/** The keys are given: in the search there is one, that of the beat. */
function findPath(beats: readonly Beat[], { chordFit, functions, change }: HearingCosts): JointPath {
  const inKey = allKeys.map((key) => allChords.map((chord) => chordInKeyCost(chord, key, functions)));
  const judge = new ChordJudge(chordFit);
  return findJointPath({
    keyCosts: beats.map(() => new Int32Array(1)),
    chordCosts: beats.map(({ heard, key }) => {
      const against = judge.judge(heard);
      const distances = inKey[keyNumber(key)] as number[];
      return heard.count === 0 ? against : against.map((cost, chord) => cost + (distances[chord] as number));
    }),
    chordInKey: [new Int32Array(allChords.length)],
    isSilent: beats.map(({ heard }) => heard.count === 0),
    keyChange: [new Int32Array(1)],
    chordChange: Int32Array.from(beats, ({ frame }) => (startsBar(frame) ? change.chordAtBar : change.chord)),
    leadsInto: dominantsInto,
    leadingGain: change.leading,
    rank: (index, _key, chord) => rankOf(beats[index] as Beat, allChords[chord] as Chord),
  });
}

function findRunnerUp(beat: Beat, excess: Int32Array, chosen: number): { chord: Chord; margin: number } {
  const rank = (index: number) => rankOf(beat, allChords[index] as Chord);
  const cost = (index: number) => excess[index] as number;
  const others = [...excess.keys()].filter((index) => index !== chosen);
  const best = others.reduce((a, b) =>
    cost(b) < cost(a) || (cost(b) === cost(a) && rank(b) < rank(a)) ? b : a,
  );
  return { chord: allChords[best] as Chord, margin: cost(best) };
}

function describe(beat: Beat, excess: Int32Array, chosen: number): LocalChord | null {
  const { frame, heard, key } = beat;
  if (heard.bass === null) return null;
  const chord = allChords[chosen] as Chord;
  const tones = tonesOf(chord);
  const intervals: readonly number[] = chordShapes[chord.quality];
  const inversion = intervals.indexOf((heard.bass - chord.root + 12) % 12);
  const { chord: runnerUp, margin } = findRunnerUp(beat, excess, chosen);
  return {
    ...chord,
    at: frame.at,
    onset: frame.onset,
    end: frame.end,
    key,
    degree: (chord.root - key.tonic + 12) % 12,
    function: functionOf(chord, key),
    bass: heard.bass,
    inversion: inversion < 0 ? null : inversion,
    confidence: margin >= clearMargin ? "clear" : margin >= likelyMargin ? "likely" : "open",
    evidence: {
      runnerUp,
      margin,
      foreignNoteIds: frame.notes.filter(({ pitchClass }) => !tones.includes(pitchClass)).map(({ id }) => id),
      missing: tones.filter((tone) => !((heard.mask >> tone) & 1)),
    },
  };
}

/**
 * The chord of each beat of the written order, given the keys: an estimate. Beats in which nothing sounds have none.
 * What counts: the chord's tones that sound or lack, tones that do not belong, the lowest note, how near the chord is
 * to the key, and that chords change less inside a bar than with it and that dominants resolve.
 *
 * @param keys as `findLocalKeys` gives them, for the same score.
 * Source: common practice; the costs are this project's own, see `HearingCosts`.
 */
export function findChords(
  score: Score,
  keys: readonly LocalKey[],
  options: ChordOptions = {},
): LocalChord[] {
  const beats = hearBeats(score, keys, options);
  if (beats.length === 0) return [];
  const { chords, chordExcess } = findPath(beats, options.costs ?? defaultHearingCosts);
  return beats.flatMap((beat, index) => {
    const chord = describe(beat, chordExcess[index] as Int32Array, chords[index] as number);
    return chord ? [chord] : [];
  });
}
