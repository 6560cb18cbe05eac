import { allKeys, type Key } from "./key";
import type { KeyProfiles, Profile } from "./key-profiles";

/** A key with what a profile says of it. */
export interface KeyMatch {
  readonly key: Key;
  /** Pearson's correlation, −1 to 1, or the Euclidean distance. */
  readonly value: number;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Pearson's correlation of two rows of the same length; 0 when one of them does not vary.
 *
 * @throws RangeError if the lengths differ.
 */
export function correlate(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) throw new RangeError(`Rows of ${a.length} and ${b.length}`);
  const [meanA, meanB] = [mean(a), mean(b)];
  let [product, squareA, squareB] = [0, 0, 0];
  for (const [place, value] of a.entries()) {
    const [offA, offB] = [value - meanA, (b[place] as number) - meanB];
    product += offA * offB;
    squareA += offA * offA;
    squareB += offB * offB;
  }
  return squareA === 0 || squareB === 0 ? 0 : product / Math.sqrt(squareA * squareB);
}

/** The profile of a key by pitch class, from C upward. */
export function profileOf({ tonic, mode }: Key, profiles: KeyProfiles): Profile {
  return Array.from(
    { length: 12 },
    (_, pitchClass) => profiles[mode][(pitchClass - tonic + 12) % 12] as number,
  );
}

/**
 * All keys by how well their profiles correlate with what sounds, the best first.
 *
 * @param weights by pitch class from C upward: durations, counts or presence.
 * Source: Krumhansl, Cognitive Foundations of Musical Pitch (1990).
 */
export function rankByCorrelation(weights: readonly number[], profiles: KeyProfiles): KeyMatch[] {
  return allKeys
    .map((key) => ({ key, value: correlate(weights, profileOf(key, profiles)) }))
    .sort((a, b) => b.value - a.value);
}

/**
 * All keys by the Euclidean distance between their profiles and the shares of what sounds, the nearest first.
 *
 * @param weights by pitch class from C upward; they are divided by their sum.
 * @throws RangeError if nothing sounds.
 * Source: Albrecht and Shanahan (2013), see `albrechtShanahan`.
 */
export function rankByDistance(weights: readonly number[], profiles: KeyProfiles): KeyMatch[] {
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  if (!(all > 0)) throw new RangeError("Nothing sounds");
  const distance = (profile: Profile) =>
    Math.hypot(...profile.map((share, pitchClass) => share - (weights[pitchClass] as number) / all));
  return allKeys
    .map((key) => ({ key, value: distance(profileOf(key, profiles)) }))
    .sort((a, b) => a.value - b.value);
}
