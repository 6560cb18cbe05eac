import type { JoinGrade } from "../join/join-row";
import type { JoinSigns } from "../join/join-signs";

/**
 * How much each sign counts. Smoothness has little to say beyond its veto: where composers shorten their own passages it
 * hardly tells their landing from others, while key and phrase do.
 *
 * Source: the order of the weights that `test/bench/shortenings.bench.ts` fits on 647 places where composers leave bars
 * out (key 3.9, phrase 2.4, smoothness 1.0, hypermetre 0.3), with more for hypermetre than was found, because groups of
 * four are heard with errors, and precedent, which cannot be measured there, as common practice has it.
 */
export const signWeights: Readonly<Record<Exclude<keyof JoinSigns, "repeat">, number>> = {
  hypermetre: 0.15,
  phrase: 0.25,
  key: 0.3,
  smoothness: 0.1,
  precedent: 0.2,
};

/** What the other signs may still say where a passage is repeated note for note: only where the seam stands best. */
const besideRepeat = 0.001;

/** What speaks for a join, from 0 to 1: for ranking, never shown to people. */
export function worthOf(signs: JoinSigns): number {
  const worth = worthOfSigns(signs);
  // Leaving out one of two equal statements leaves the piece as it is, only shorter.
  return signs.repeat === 0 ? worth : 1 - besideRepeat * (1 - worth);
}

function worthOfSigns(signs: JoinSigns): number {
  const { precedent } = signs;
  // What the piece does itself is as right in key and as smooth as the piece is, whatever else was heard.
  const [key, smoothness] = [Math.max(signs.key, precedent), Math.max(signs.smoothness, precedent)];
  return (
    signWeights.hypermetre * signs.hypermetre +
    signWeights.phrase * signs.phrase +
    signWeights.key * key +
    signWeights.smoothness * smoothness +
    signWeights.precedent * precedent
  );
}

/** What a grade adds to the cost: more for a rough join than all signs together can make up. Source: ours. */
export const gradeCosts: Readonly<Record<JoinGrade, number>> = { clean: 0, "needs-a-touch": 0.15, rough: 1 };

/** Cuts inside bars are harder to find on the page. Source: common practice. */
export const insideBarCost = 0.04;

/**
 * A cut that saves less than these seconds is hardly worth its mark: a cost that fades out, quickly at first, so that
 * half of the time costs a quarter. Source: ours.
 */
const [smallCutSeconds, smallCutCost] = [12, 0.3];

export function shortCutCost(savedSeconds: number): number {
  const lacking = Math.max(0, smallCutSeconds - savedSeconds) / smallCutSeconds;
  return smallCutCost * lacking * lacking;
}
