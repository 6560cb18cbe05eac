import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import type { Score } from "@/lib/score/score";
import { type BarFingerprint, barSimilarity, fingerprintBars } from "./bar-fingerprint";
import type { Cadence } from "./find-cadences";
import { findSoundingNotes, type Listening, type SoundingNote } from "./sounding-notes";

/** What speaks for a phrase that starts with a bar, an upbeat to it included. */
export interface PhraseSigns {
  /** Ids of parts that begin within a beat of the bar line after a silence of a beat or more. */
  readonly entering: readonly string[];
  /** Ids of parts whose last note before the bar line lasts twice as long as their notes do on the whole. */
  readonly lingering: readonly string[];
  /** A cadence that arrived in the bar before. */
  readonly cadenceBefore: Cadence["kind"] | null;
  /** A slur ends before the bar line or on it, and none goes across. */
  readonly slurEnds: boolean;
  /** Like an earlier bar (its index) while the bars before the two are not alike: something begins again. */
  readonly beginsLikeBar: number | null;
  /** Tempo, metre, key, rehearsal mark, repeat sign, or dynamics in every part that plays. */
  readonly printed: readonly string[];
}

interface PartReading {
  readonly id: string;
  readonly notes: readonly SoundingNote[];
  /** The median length of its notes. */
  readonly usualLength: Quarters;
  readonly slurs: readonly { readonly from: Quarters; readonly to: Quarters }[];
}

function medianLength(notes: readonly SoundingNote[]): Quarters {
  const lengths = notes.map(({ onset, end }) => subtractQuarters(end, onset)).sort(compareQuarters);
  return lengths[lengths.length >> 1] ?? noQuarters;
}

/** Slurs from the onset of the first note to the onset of the last. */
function findSlurs(notes: readonly Note[]): { from: Quarters; to: Quarters }[] {
  const open = new Map<number, Quarters>();
  const slurs: { from: Quarters; to: Quarters }[] = [];
  for (const note of notes) {
    for (const { number, type } of note.slurs) {
      const from = open.get(number);
      if (type === "start") open.set(number, note.onset);
      if (type === "stop" && from) slurs.push({ from, to: note.onset });
      if (type === "stop") open.delete(number);
    }
  }
  return slurs;
}

function readPart(part: Part, all: readonly SoundingNote[]): PartReading {
  const notes = all.filter(({ partId }) => partId === part.id);
  return { id: part.id, notes, usualLength: medianLength(notes), slurs: findSlurs(part.notes) };
}

/** Around one bar line: the last notes before it and where the part goes on. */
function lookAround({ notes }: PartReading, line: Quarters, reach: Quarters) {
  const from = subtractQuarters(line, reach);
  const to = addQuarters(line, reach);
  let [low, high] = [0, notes.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compareQuarters((notes[middle] as SoundingNote).onset, from) < 0) low = middle + 1;
    else high = middle;
  }
  const entry = notes[low];
  const isNear = entry !== undefined && compareQuarters(entry.onset, to) < 0;
  return { entry: isNear ? entry : null, before: notes.slice(Math.max(0, low - 12), low) };
}

function enters(part: PartReading, line: Quarters, beat: Quarters): boolean {
  const { entry, before } = lookAround(part, line, beat);
  if (!entry || compareQuarters(entry.onset, addQuarters(line, beat)) >= 0) return false;
  const silentFrom = before.reduce(
    (end, note) => (compareQuarters(note.end, end) > 0 ? note.end : end),
    noQuarters,
  );
  return compareQuarters(subtractQuarters(entry.onset, silentFrom), beat) >= 0;
}

function lingers(part: PartReading, line: Quarters): boolean {
  const last = lookAround(part, line, noQuarters).before.at(-1);
  if (!last || compareQuarters(last.end, line) > 0) return false;
  const twice = addQuarters(part.usualLength, part.usualLength);
  return compareQuarters(subtractQuarters(line, last.onset), twice) >= 0;
}

function slurEndsAt({ slurs }: PartReading, line: Quarters, barBefore: Quarters): "ends" | "crosses" | null {
  const crosses = slurs.some(
    ({ from, to }) => compareQuarters(from, line) < 0 && compareQuarters(to, line) > 0,
  );
  if (crosses) return "crosses";
  const ends = slurs.some(({ to }) => compareQuarters(to, barBefore) >= 0 && compareQuarters(to, line) <= 0);
  return ends ? "ends" : null;
}

const [alike, unlike] = [0.7, 0.5];

/** The nearest earlier bar with which a repetition begins. */
function beginsLike(prints: readonly BarFingerprint[], index: number): number | null {
  const [print, before] = [prints[index], prints[index - 1]];
  if (!print || !before || print.weight === 0) return null;
  for (let other = index - 2; other >= 0; other -= 1) {
    const candidate = prints[other] as BarFingerprint;
    if (!isEqualQuarters(candidate.length, print.length) || barSimilarity(candidate, print, 0) < alike)
      continue;
    const earlier = prints[other - 1];
    if (!earlier || barSimilarity(earlier, before, 0) < unlike) return other;
  }
  return null;
}

const sameMetre = (a: Bar, b: Bar): boolean =>
  JSON.stringify(a.metre.groups) === JSON.stringify(b.metre.groups);

/** By part of the score: the times at which something begins, and those of printed dynamics. */
interface PartTimes {
  readonly begins: ReadonlySet<string>;
  readonly marked: ReadonlySet<string>;
}

function readTimes({ notes, directions }: Part): PartTimes {
  const dynamics = directions.filter(({ kind }) => kind === "dynamic");
  const times = (list: readonly { readonly onset: Quarters }[]) =>
    new Set(list.map(({ onset }) => writeQuarters(onset)));
  return { begins: times(notes), marked: times(dynamics) };
}

function findPrinted(score: Score, times: readonly PartTimes[], bar: Bar, before: Bar | undefined): string[] {
  const at = (onset: Quarters) => isEqualQuarters(onset, bar.start);
  const signs: [string, boolean][] = [
    ["tempo", startsTempo(score, bar)],
    ["metre", before !== undefined && !before.isPickup && !sameMetre(bar, before)],
    ["key", before !== undefined && before.key.fifths !== bar.key.fifths],
    [
      "rehearsal",
      score.parts.some((part) => part.directions.some((d) => d.kind === "rehearsal" && at(d.onset))),
    ],
    ["repeat", bar.repeats.startsRepeat || (before?.repeats.endsRepeatAfter ?? null) !== null],
    ["dynamics", startsDynamics(times, bar)],
  ];
  return signs.filter(([, isThere]) => isThere).map(([name]) => name);
}

/** A printed metronome mark, or words that set a tempo or bring one back. */
function startsTempo(score: Score, bar: Bar): boolean {
  const says = (text: string) =>
    ["absolute", "relative", "restore"].includes(readTempoWords(text)?.kind ?? "");
  const isHere = ({ onset }: { readonly onset: Quarters }) => isEqualQuarters(onset, bar.start);
  return (
    score.tempoMarks.some((mark) => mark.source !== "sound" && isHere(mark)) ||
    score.parts.some((part) => part.directions.some((d) => d.kind === "words" && isHere(d) && says(d.text)))
  );
}

function startsDynamics(times: readonly PartTimes[], bar: Bar): boolean {
  const time = writeQuarters(bar.start);
  const playing = times.filter(({ begins }) => begins.has(time));
  return playing.length > 0 && playing.every(({ marked }) => marked.has(time));
}

/** The signs at every bar line, by bar index. */
export function findPhraseSigns(
  score: Score,
  cadences: readonly Cadence[],
  listening: Listening = {},
): PhraseSigns[] {
  const all = findSoundingNotes(score, listening);
  const parts = score.parts.map((part) => readPart(part, all)).filter(({ notes }) => notes.length > 0);
  const prints = fingerprintBars(score, listening);
  const times = score.parts.map(readTimes);
  const arrivals = new Map(cadences.map(({ at, kind }) => [at.barIndex, kind]));
  return score.bars.map((bar, index) => {
    const before = score.bars[index - 1];
    const beat = beatOf(bar.metre);
    const slurs = before ? parts.map((part) => slurEndsAt(part, bar.start, before.start)) : [];
    return {
      entering: parts.filter((part) => enters(part, bar.start, beat)).map(({ id }) => id),
      lingering: before ? parts.filter((part) => lingers(part, bar.start)).map(({ id }) => id) : [],
      cadenceBefore: arrivals.get(index - 1) ?? null,
      slurEnds: slurs.includes("ends") && !slurs.includes("crosses"),
      beginsLikeBar: beginsLike(prints, index),
      printed: findPrinted(score, times, bar, before),
    };
  });
}
