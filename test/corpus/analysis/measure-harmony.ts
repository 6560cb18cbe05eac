import { readdirSync } from "node:fs";
import path from "node:path";
import { findChords } from "@/lib/harmony/find-chords";
import { findLocalKeys } from "@/lib/harmony/find-local-keys";
import { findProfileKeys } from "@/lib/harmony/find-profile-keys";
import { cutIntoFrames, quarterNote } from "@/lib/harmony/frames";
import { type Key, keyNumber } from "@/lib/harmony/key";
import { corpusFolder } from "../corpus-folder";
import { type AnalysedPiece, analysedAt, readAnalysedPiece } from "./analysed-piece";

/** Counts of frames, summed over pieces by `addCounts`. */
export interface HarmonyCounts {
  /** Quarter notes that the analysis names a key for, and those with the same key. */
  readonly quarters: number;
  readonly keyRight: number;
  /** The same for pitch-class profiles alone. */
  readonly profileKeyRight: number;
  /** Of the right key or of its relative, its parallel or a fifth away. */
  readonly keyNear: number;
  /** Quarters called clear, and those of them with the same key. */
  readonly clear: number;
  readonly clearRight: number;
  /** Beats that sound, and those with the same root, or root and quality, in force on the beat. */
  readonly beats: number;
  readonly rootRight: number;
  readonly chordRight: number;
}

/** The costs were tuned on one half; only the other tells how well they do. */
export type Half = "tuned-on" | "held-out";

export interface MeasuredPiece {
  readonly name: string;
  readonly isSong: boolean;
  readonly half: Half;
  readonly counts: HarmonyCounts;
}

export const noCounts: HarmonyCounts = {
  quarters: 0,
  keyRight: 0,
  profileKeyRight: 0,
  keyNear: 0,
  clear: 0,
  clearRight: 0,
  beats: 0,
  rootRight: 0,
  chordRight: 0,
};

export function addCounts(a: HarmonyCounts, b: HarmonyCounts): HarmonyCounts {
  const names = Object.keys(noCounts) as (keyof HarmonyCounts)[];
  return Object.fromEntries(names.map((name) => [name, a[name] + b[name]])) as unknown as HarmonyCounts;
}

function isNear(a: Key, b: Key): boolean {
  const interval = (b.tonic - a.tonic + 12) % 12;
  if (a.mode === b.mode) return interval === 0 || interval === 5 || interval === 7;
  return interval === 0 || interval === (a.mode === "major" ? 9 : 3);
}

function countKeys(piece: AnalysedPiece, keys: ReturnType<typeof findLocalKeys>): HarmonyCounts {
  const profileKeys = findProfileKeys(piece.score);
  let counts = noCounts;
  for (const [index, { onset }] of cutIntoFrames(piece.score, quarterNote).entries()) {
    const [truth, key, profileKey] = [analysedAt(piece, onset)?.key, keys[index], profileKeys[index]];
    if (!truth || !key || !profileKey) continue;
    const isRight = keyNumber(key) === keyNumber(truth);
    const isClear = key.confidence === "clear";
    counts = addCounts(counts, {
      ...noCounts,
      quarters: 1,
      keyRight: Number(isRight),
      profileKeyRight: Number(keyNumber(profileKey) === keyNumber(truth)),
      keyNear: Number(isNear(truth, key)),
      clear: Number(isClear),
      clearRight: Number(isClear && isRight),
    });
  }
  return counts;
}

function countChords(piece: AnalysedPiece, keys: ReturnType<typeof findLocalKeys>): HarmonyCounts {
  let counts = noCounts;
  for (const chord of findChords(piece.score, keys)) {
    const truth = analysedAt(piece, chord.onset)?.chord;
    if (!truth) continue;
    const isRoot = truth.root === chord.root;
    const isChord = isRoot && truth.quality === chord.quality;
    const beat = { ...noCounts, beats: 1, rootRight: Number(isRoot), chordRight: Number(isChord) };
    counts = addCounts(counts, beat);
  }
  return counts;
}

/** Files of analyses in the corpus, sorted; empty, with a printed line, when the corpus is absent. */
export function listAnalyses(): string[] {
  if (corpusFolder === null) return [];
  return readdirSync(path.join(corpusFolder, "harmony"))
    .filter((file) => file.endsWith(".rntxt"))
    .toSorted();
}

export function readAnalysis(file: string): AnalysedPiece {
  if (corpusFolder === null) throw new RangeError("The corpus is absent");
  return readAnalysedPiece(path.join(corpusFolder, "harmony"), file);
}

/** Every analysed piece, in order of its file name; every second one was tuned on. */
export function measureHarmony(): MeasuredPiece[] {
  return listAnalyses().map((file, index) => {
    const piece = readAnalysis(file);
    const keys = findLocalKeys(piece.score);
    const counts = addCounts(countKeys(piece, keys), countChords(piece, keys));
    const half: Half = index % 2 === 1 ? "tuned-on" : "held-out";
    return { name: piece.name, isSong: !piece.name.startsWith("haydn"), half, counts };
  });
}

export const percent = (part: number, all: number): number =>
  all === 0 ? 0 : Number(((100 * part) / all).toFixed(1));
