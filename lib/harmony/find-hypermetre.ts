import type { Score } from "@/lib/score/score";
import { type BarFingerprint, bestRotation, fingerprintBars } from "./bar-fingerprint";
import type { PhraseStart } from "./find-phrases";
import type { Listening } from "./sounding-notes";

/** Bars that are felt as one large bar. By index, `to` exclusive. */
export interface HypermetricGroup {
  readonly from: number;
  readonly to: number;
  /** As long as groups of its level are. */
  readonly isRegular: boolean;
  readonly confidence: "clear" | "likely" | "open";
  readonly evidence: {
    /** Likelihood that a phrase starts with the first bar, and the highest of the bars inside. */
    readonly startLikelihood: number;
    readonly innerLikelihood: number;
    /** How like the group before it is, bar by bar, at the best transposition of each; null for the first. */
    readonly likeGroupBefore: number | null;
    readonly endsWithCadence: boolean;
    /** Regular groups around it, itself included, that follow one another without a break. */
    readonly regularInARow: number;
  };
}

/** The groups of one level, which tile the piece, and how often the phase shifts. */
export interface Hypermetre {
  readonly size: 2 | 4;
  readonly groups: readonly HypermetricGroup[];
  /** Indices of bars where a group of another length makes the phase shift. */
  readonly shifts: readonly number[];
}

/** Cost of a group by length. Source: common practice; of the same order as the odds of phrase starts. */
function lengthCost(bars: number, size: number): number {
  return bars === size ? 0 : 1.2 + 0.5 * Math.abs(bars - size);
}

const logOdds = (likelihood: number): number => Math.log(likelihood / (1 - likelihood));

/** Ends of groups whose first bars are the likeliest starts, less what irregular groups cost. */
function divide(strengths: readonly number[], first: number, size: number): number[] {
  const best: number[] = [];
  const from: number[] = [];
  for (let bar = first; bar <= strengths.length; bar += 1) {
    best[bar] = bar === first ? 0 : Number.NEGATIVE_INFINITY;
    for (let start = Math.max(first, bar - size - 2); start < bar; start += 1) {
      const strength = bar < strengths.length ? (strengths[bar] as number) : 0;
      const isLast = bar === strengths.length;
      const cost = isLast && bar - start < size ? 0.5 : lengthCost(bar - start, size);
      const value = (best[start] as number) + strength - cost;
      if (value <= (best[bar] as number)) continue;
      best[bar] = value;
      from[bar] = start;
    }
  }
  const ends: number[] = [];
  for (let bar: number | undefined = strengths.length; bar !== undefined && bar > first; bar = from[bar])
    ends.push(bar);
  return ends.reverse();
}

/** Mean over the bars that both groups have. */
function likeness(prints: readonly BarFingerprint[], before: number, from: number, bars: number): number {
  let sum = 0;
  for (let bar = 0; bar < bars; bar += 1) {
    const [a, b] = [prints[before + bar], prints[from + bar]];
    if (a && b) sum += bestRotation(a, b).similarity;
  }
  return bars === 0 ? 0 : sum / bars;
}

function confidenceOf(startLikelihood: number, innerLikelihood: number, inARow: number) {
  if (startLikelihood >= 0.5 && startLikelihood > innerLikelihood && inARow >= 2) return "clear";
  return startLikelihood >= innerLikelihood && inARow >= 2 ? "likely" : "open";
}

/** By place: how many regular groups stand in a row around each. */
function countRows(lengths: readonly number[], size: number): number[] {
  const rows: number[] = lengths.map(() => 0);
  for (let start = 0; start < lengths.length; ) {
    let end = start;
    while (end < lengths.length && lengths[end] === size) end += 1;
    rows.fill(end - start, start, end);
    start = Math.max(end, start + 1);
  }
  return rows;
}

/**
 * Groups of two or of four bars with their phase: where the large bars begin. An upbeat bar stands outside.
 *
 * @param phrases as `findPhrases` gives them, for the same score: where phrases start, groups do.
 * Source: common practice.
 */
export function findHypermetre(
  score: Score,
  phrases: readonly PhraseStart[],
  size: 2 | 4,
  listening: Listening = {},
): Hypermetre {
  const first = score.bars[0]?.isPickup ? 1 : 0;
  // What the average bar has says nothing of phase, and must not reward many groups.
  const odds = phrases.map(({ likelihood }) => logOdds(likelihood));
  const usual = odds.reduce((sum, value) => sum + value, 0) / Math.max(1, odds.length);
  const strengths = odds.map((value) => value - usual);
  const ends = divide(strengths, first, size);
  const starts = ends.map((_, place) => ends[place - 1] ?? first);
  const rows = countRows(
    ends.map((end, place) => end - (starts[place] as number)),
    size,
  );
  const prints = fingerprintBars(score, listening);
  const likelihood = (bar: number) => phrases[bar]?.likelihood ?? 0;
  const groups = ends.map((to, place): HypermetricGroup => {
    const from = starts[place] as number;
    const before = starts[place - 1];
    const inner = Array.from({ length: to - from - 1 }, (_, bar) => likelihood(from + bar + 1));
    const innerLikelihood = Math.max(0, ...inner);
    const shared = before === undefined ? 0 : Math.min(to - from, from - before);
    return {
      from,
      to,
      isRegular: to - from === size,
      confidence: confidenceOf(likelihood(from), innerLikelihood, rows[place] as number),
      evidence: {
        startLikelihood: likelihood(from),
        innerLikelihood,
        likeGroupBefore: before === undefined ? null : likeness(prints, before, from, shared),
        endsWithCadence: (phrases[to]?.evidence.cadenceBefore ?? null) !== null,
        regularInARow: rows[place] as number,
      },
    };
  });
  const shifts = groups
    .filter(({ isRegular, to }) => !isRegular && to < score.bars.length)
    .map(({ to }) => to);
  return { size, groups, shifts };
}
