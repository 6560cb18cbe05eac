import type { Score } from "@/lib/score/score";
import type { Cadence } from "./find-cadences";
import { findPhraseSigns, type PhraseSigns } from "./phrase-signs";
import type { Listening } from "./sounding-notes";

/** How likely it is that a phrase starts with a bar. */
export interface PhraseStart {
  readonly barIndex: number;
  /** 0 to 1, from the signs alone. */
  readonly likelihood: number;
  /** Among the starts that divide the piece best, when phrases of four and eight bars are the most usual. */
  readonly isChosen: boolean;
  readonly confidence: "clear" | "likely" | "open";
  readonly evidence: PhraseSigns;
}

/** Logarithms of odds. Source: common practice; not fitted, because no labelled phrases lie in the corpus. */
const odds = {
  none: -2.2,
  entering: 1.3,
  everyPartEnters: 0.7,
  lingering: 0.9,
  cadence: 1.3,
  slurEnds: 0.5,
  beginsAgain: 1.2,
  printed: 1,
} as const;

function sumOdds(signs: PhraseSigns, partCount: number): number {
  const all = signs.entering.length === partCount && partCount > 1;
  return (
    odds.none +
    (signs.entering.length > 0 ? odds.entering : 0) +
    (all ? odds.everyPartEnters : 0) +
    (signs.lingering.length > 0 ? odds.lingering : 0) +
    (signs.cadenceBefore ? odds.cadence : 0) +
    (signs.slurEnds ? odds.slurEnds : 0) +
    (signs.beginsLikeBar === null ? 0 : odds.beginsAgain) +
    odds.printed * Math.min(2, signs.printed.length)
  );
}

/** Cost of a phrase of so many bars. Source: common practice. */
function lengthCost(bars: number): number {
  const usual: Readonly<Record<number, number>> = {
    4: 0,
    8: 0.6,
    2: 1,
    6: 1,
    3: 1.4,
    5: 1.4,
    7: 1.6,
    1: 2.6,
  };
  return usual[bars] ?? 1.6 + 0.15 * (bars - 8);
}

const longestPhrase = 24;

/** The starts whose odds add up to most, less what unusual lengths cost. The first bar that is no upbeat starts one. */
function chooseStarts(scores: readonly number[], first: number): ReadonlySet<number> {
  const best: number[] = [];
  const from: number[] = [];
  const end = scores.length;
  for (let bar = first; bar <= end; bar += 1) {
    best[bar] = bar === first ? 0 : Number.NEGATIVE_INFINITY;
    for (let start = Math.max(first, bar - longestPhrase); start < bar; start += 1) {
      const value =
        (best[start] as number) + (bar < end ? (scores[bar] as number) : 0) - lengthCost(bar - start);
      if (value <= (best[bar] as number)) continue;
      best[bar] = value;
      from[bar] = start;
    }
  }
  const starts = new Set<number>();
  for (let bar = from[end]; bar !== undefined; bar = from[bar]) starts.add(bar);
  return starts;
}

function confidenceOf(likelihood: number, isChosen: boolean): PhraseStart["confidence"] {
  const agreed = isChosen ? likelihood : 1 - likelihood;
  if (agreed >= 0.8) return "clear";
  return agreed >= 0.55 ? "likely" : "open";
}

/**
 * For every bar how likely a phrase starts with it (an upbeat belongs to the bar that it leads to), with the signs. The
 * confidence says how far the signs agree with the choice.
 *
 * @param cadences as `findCadences` gives them, for the same score.
 * Source: rests, long notes, cadences, repetition and a prior on lengths as in Temperley, The Cognition of Basic
 * Musical Structures (2001), freely; the odds are this project's own and not fitted.
 */
export function findPhrases(
  score: Score,
  cadences: readonly Cadence[],
  listening: Listening = {},
): PhraseStart[] {
  const signs = findPhraseSigns(score, cadences, listening);
  const partCount = score.parts.length;
  const scores = signs.map((sign) => sumOdds(sign, partCount));
  const starts = chooseStarts(scores, score.bars[0]?.isPickup ? 1 : 0);
  return signs.map((evidence, barIndex) => {
    const likelihood = 1 / (1 + Math.exp(-(scores[barIndex] as number)));
    const isChosen = starts.has(barIndex);
    return { barIndex, likelihood, isChosen, confidence: confidenceOf(likelihood, isChosen), evidence };
  });
}
