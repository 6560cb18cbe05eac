import { isEqualQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { type BarFingerprint, fingerprintBars } from "./bar-fingerprint";
import { PackedSlots, type RaisedSlots } from "./packed-slots";
import type { Listening } from "./sounding-notes";

/** Two passages that say the same, the second perhaps on another degree. Bars by index, end exclusive. */
export interface Parallel {
  readonly first: { readonly from: number; readonly to: number };
  readonly second: { readonly from: number; readonly to: number };
  /** From the first up to the second, 0 to 11. */
  readonly semitones: number;
  /** Mean over the bars, 0 to 1. */
  readonly similarity: number;
  readonly evidence: {
    /** Of each pair of bars. */
    readonly similarities: readonly number[];
    /** Pairs that are the same in every slot. */
    readonly identicalBars: number;
  };
}

export interface ParallelOptions extends Listening {
  /** Shortest passage in bars; two when left out. */
  readonly leastBars?: number;
  /** Least similarity of each pair of bars; 0.6 when left out. */
  readonly leastSimilarity?: number;
}

interface Search {
  readonly prints: readonly BarFingerprint[];
  readonly packed: PackedSlots;
  readonly raised: readonly RaisedSlots[];
  readonly leastBars: number;
  readonly leastSimilarity: number;
}

function makeParallel(
  search: Search,
  from: number,
  distance: number,
  semitones: number,
  run: number[],
): Parallel[] {
  const isSilent = (bar: number) => search.prints[bar]?.weight === 0;
  let [start, length] = [from, run.length];
  while (length > 0 && isSilent(start)) {
    start += 1;
    length -= 1;
  }
  while (length > 0 && isSilent(start + length - 1)) length -= 1;
  if (length < search.leastBars) return [];
  const similarities = run.slice(start - from, start - from + length);
  return [
    {
      first: { from: start, to: start + length },
      second: { from: start + distance, to: start + distance + length },
      semitones,
      similarity: similarities.reduce((sum, similarity) => sum + similarity, 0) / length,
      evidence: { similarities, identicalBars: similarities.filter((similarity) => similarity === 1).length },
    },
  ];
}

const transpositions = 12;

/**
 * How like two bars are at each transposition; 0 for less than the least. Silent bars may stand inside a passage, not at
 * its ends, and only against silence.
 */
function compare(search: Search, bar: number, other: number, out: Float64Array): void {
  const { prints, packed, raised, leastSimilarity } = search;
  const [a, b] = [prints[bar] as BarFingerprint, prints[other] as BarFingerprint];
  const areSilent = a.weight === 0 && b.weight === 0;
  out.fill(areSilent && isEqualQuarters(a.length, b.length) ? 1 : 0);
  if (areSilent || !packed.canBeAlike(a.weight, other, leastSimilarity)) return;
  if (!isEqualQuarters(a.length, b.length)) return;
  const own = raised[bar] as RaisedSlots;
  for (let semitones = 0; semitones < transpositions; semitones += 1)
    out[semitones] = packed.likeness(own, other, semitones, leastSimilarity);
}

/** Runs of like bars at one distance, at all transpositions. */
function findRuns(search: Search, distance: number): Parallel[] {
  const found: Parallel[] = [];
  const runs: number[][] = Array.from({ length: transpositions }, () => []);
  const similarities = new Float64Array(transpositions);
  const last = search.prints.length - distance;
  for (let bar = 0; bar <= last; bar += 1) {
    if (bar < last) compare(search, bar, bar + distance, similarities);
    else similarities.fill(0);
    for (let semitones = 0; semitones < transpositions; semitones += 1) {
      const [run, similarity] = [runs[semitones] as number[], similarities[semitones] as number];
      if (similarity > 0) run.push(similarity);
      else if (run.length > 0) {
        found.push(...makeParallel(search, bar - run.length, distance, semitones, run));
        runs[semitones] = [];
      }
    }
  }
  return found;
}

const barsOf = ({ first }: Parallel): number => first.to - first.from;

function overlaps(a: Parallel, b: Parallel): boolean {
  const meets = (x: { from: number; to: number }, y: { from: number; to: number }) =>
    x.from < y.to && y.from < x.to;
  return meets(a.first, b.first) && meets(a.second, b.second);
}

/** Of runs at one distance that lie over each other at several transpositions, the longer, then the more alike. */
function keepBest(found: readonly Parallel[]): Parallel[] {
  const kept: Parallel[] = [];
  const best = found.toSorted(
    (a, b) => barsOf(b) - barsOf(a) || b.similarity - a.similarity || a.semitones - b.semitones,
  );
  for (const parallel of best) if (!kept.some((other) => overlaps(parallel, other))) kept.push(parallel);
  return kept;
}

/**
 * Passages that come again, at pitch or transposed, found by bar fingerprints: every pair of runs of bars of equal
 * lengths in which each bar is like its counterpart. A figure that repeats itself is found too, as a passage that
 * overlaps its own copy.
 *
 * @returns by first bar, then by second bar.
 * @throws RangeError if an option is out of range.
 */
export function findParallels(score: Score, options: ParallelOptions = {}): Parallel[] {
  const { leastBars = 2, leastSimilarity = 0.6 } = options;
  if (!(leastBars >= 1)) throw new RangeError(`Not a number of bars: ${leastBars}`);
  if (!(leastSimilarity > 0 && leastSimilarity <= 1))
    throw new RangeError(`Not a similarity: ${leastSimilarity}`);
  const prints = fingerprintBars(score, options);
  const packed = new PackedSlots(prints.map(({ slots }) => slots));
  const raised = prints.map((_, bar) => packed.raise(bar));
  const search: Search = { prints, packed, raised, leastBars, leastSimilarity };
  const found = prints.flatMap((_, distance) => (distance === 0 ? [] : keepBest(findRuns(search, distance))));
  return found.sort((a, b) => a.first.from - b.first.from || a.second.from - b.second.from);
}
