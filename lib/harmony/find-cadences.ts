import { beatOf } from "@/lib/score/beat-of";
import { pieceLength } from "@/lib/score/piece-length";
import type { Position } from "@/lib/score/position";
import {
  compareQuarters,
  isEqualQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { Chord } from "./chord-shapes";
import { type ChordSpan, isAdjacent, joinChords, onsetAfter } from "./chord-spans";
import type { LocalChord } from "./find-chords";
import type { Key } from "./key";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

export type CadenceKind = "authentic" | "half" | "plagal" | "deceptive";

/** A place where the harmony comes to rest: a candidate, with what speaks for it. */
export interface Cadence {
  readonly kind: CadenceKind;
  /** Where the last chord arrives. */
  readonly at: Position;
  readonly onset: Quarters;
  readonly key: Key;
  readonly confidence: "clear" | "likely" | "possible";
  readonly evidence: CadenceEvidence;
}

export interface CadenceEvidence {
  readonly approach: Chord;
  readonly arrival: Chord;
  /** The chord before the last stands on its root. */
  readonly approachInRootPosition: boolean;
  /** The highest note of the arrival is the root of its chord. */
  readonly topOnRoot: boolean;
  /** The arrival is the first beat of its bar. */
  readonly atBarLine: boolean;
  /** From the arrival until its highest part begins another note, in quarters. */
  readonly topPause: Quarters;
  /** The top part pauses for half a bar or more. */
  readonly topPauses: boolean;
  /** The arrival's chord lasts for half a bar or more. */
  readonly staysHalfABar: boolean;
  /** A second inversion of the tonic before the dominant. */
  readonly hasCadentialSixFour: boolean;
}

const isDominant = ({ root, quality }: Chord, { tonic }: Key): boolean =>
  (root - tonic + 12) % 12 === 7 && (quality === "major" || quality === "dominant-seventh");

const isTriad = ({ quality }: Chord): boolean => quality === "major" || quality === "minor";

/** What two chords in a row make in the key of the second; null when they make no cadence. */
function kindOf(before: LocalChord, after: LocalChord): CadenceKind | null {
  const { key, degree } = after;
  if (after.inversion !== 0 || !isTriad(after)) return null;
  const fromDegree = (before.root - key.tonic + 12) % 12;
  if (degree === 7 && after.quality === "major") return isDominant(before, key) ? null : "half";
  if (isDominant(before, key)) {
    if (degree === 0) return "authentic";
    return degree === (key.mode === "major" ? 9 : 8) ? "deceptive" : null;
  }
  return degree === 0 && fromDegree === 5 && isTriad(before) ? "plagal" : null;
}

interface Reading {
  readonly score: Score;
  readonly notes: readonly SoundingNote[];
  readonly onsetsByPart: ReadonlyMap<string, readonly Quarters[]>;
}

function read(score: Score, listening: Listening): Reading {
  const notes = findSoundingNotes(score, listening);
  const onsetsByPart = new Map<string, Quarters[]>();
  for (const { partId, onset } of notes) {
    const onsets = onsetsByPart.get(partId);
    if (onsets) onsets.push(onset);
    else onsetsByPart.set(partId, [onset]);
  }
  return { score, notes, onsetsByPart };
}

/** Index of the first note that begins at `time` or later. */
function firstNoteFrom(notes: readonly SoundingNote[], time: Quarters): number {
  let [low, high] = [0, notes.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compareQuarters((notes[middle] as SoundingNote).onset, time) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The highest of the notes that begin at a time; null when none does. */
function topAt({ notes }: Reading, time: Quarters): SoundingNote | null {
  let top: SoundingNote | null = null;
  for (let index = firstNoteFrom(notes, time); index < notes.length; index += 1) {
    const note = notes[index] as SoundingNote;
    if (!isEqualQuarters(note.onset, time)) break;
    if (!top || note.midi > top.midi) top = note;
  }
  return top;
}

function weigh(reading: Reading, spans: readonly ChordSpan[], index: number): CadenceEvidence | null {
  const [before, after] = [spans[index - 1], spans[index]];
  const top = after ? topAt(reading, after.first.onset) : null;
  const bar = reading.score.bars[after?.first.at.barIndex ?? -1];
  if (!before || !after || !top || !bar) return null;
  const { onset, at } = after.first;
  const next = onsetAfter(reading.onsetsByPart.get(top.partId) ?? [], onset) ?? pieceLength(reading.score);
  const topPause = subtractQuarters(next, onset);
  const halfABar = scaleQuarters(bar.metreLength, 1, 2);
  const earlier = spans[index - 2]?.last;
  return {
    approach: { root: before.last.root, quality: before.last.quality },
    arrival: { root: after.first.root, quality: after.first.quality },
    approachInRootPosition: before.last.inversion === 0,
    topOnRoot: top.pitchClass === after.first.root,
    atBarLine: at.offset.num === 0 && !bar.isPickup,
    topPause,
    topPauses: compareQuarters(topPause, halfABar) >= 0 && compareQuarters(topPause, beatOf(bar.metre)) >= 0,
    staysHalfABar: compareQuarters(subtractQuarters(after.last.end, onset), halfABar) >= 0,
    hasCadentialSixFour: earlier !== undefined && earlier.degree === 0 && earlier.inversion === 2,
  };
}

/** One point for each sign of rest; the top part's pause counts two, because everything else can happen in passing. */
function pointsOf(kind: CadenceKind, evidence: CadenceEvidence): number {
  const signs = [
    evidence.approachInRootPosition || kind === "plagal" || kind === "half",
    evidence.topOnRoot && kind !== "half",
    evidence.atBarLine,
    evidence.topPauses,
    evidence.topPauses,
    evidence.staysHalfABar,
    evidence.hasCadentialSixFour,
  ];
  return signs.filter(Boolean).length;
}

function confidenceOf(points: number): Cadence["confidence"] | null {
  if (points >= 5) return "clear";
  if (points === 4) return "likely";
  return points === 3 ? "possible" : null;
}

/**
 * Candidates for cadences at the exact onset of their last chord, which stands on its root:
 *
 * - *authentic*: dominant to tonic · *half*: any other chord to the major triad on the fifth degree
 * - *plagal*: fourth degree to tonic · *deceptive*: dominant to the sixth degree.
 *
 * Signs of rest decide how sure a candidate is; those with fewer than three are left out.
 *
 * @param chords as `findChords` gives them, for the same score.
 * Source: common practice; the points are this project's own.
 */
export function findCadences(
  score: Score,
  chords: readonly LocalChord[],
  listening: Listening = {},
): Cadence[] {
  const reading = read(score, listening);
  const spans = joinChords(chords);
  return spans.flatMap((after, index): Cadence[] => {
    const before = spans[index - 1];
    const kind = before && isAdjacent(before, after) ? kindOf(before.last, after.first) : null;
    const evidence = kind ? weigh(reading, spans, index) : null;
    const confidence = kind && evidence ? confidenceOf(pointsOf(kind, evidence)) : null;
    if (!kind || !evidence || !confidence) return [];
    const { at, onset, key } = after.first;
    return [{ kind, at, onset, key, confidence, evidence }];
  });
}
