import type { HandName } from "../hands-profile";
import { type FingeredKey, isBlackKey, middleCost, pairCost, weakFinger } from "./fingering-cost";
import { type Finger, fingers } from "./pair-spans";

export interface Fingering {
  readonly fingers: readonly Finger[];
  /** Of the model; the least there is. */
  readonly cost: number;
}

/** The cost of notes that follow one another, with these fingers: what `solveFingering` makes as small as can be. */
export function costOfFingering(keys: readonly number[], hand: HandName, chosen: readonly Finger[]): number {
  const fingered = keys.map((midi, index) => toKey(midi, hand, chosen[index] as Finger));
  return fingered.reduce((sum, key, index) => {
    const [before, after] = [fingered[index - 1] ?? null, fingered[index + 1] ?? null];
    const pair = before ? pairCost(before, key) : 0;
    return sum + pair + middleCost(before, key, after) + weakFinger(key.finger);
  }, 0);
}

function toKey(midi: number, hand: HandName, finger: Finger): FingeredKey {
  return { midi: hand === "right" ? midi : -midi, isBlack: isBlackKey(midi), finger };
}

/** What a way to the last two fingers has cost, without what the last note adds by what follows it. */
interface Way {
  readonly cost: number;
  readonly fingers: readonly Finger[];
}

/**
 * The cheapest fingering of a line of one hand: exact, by dynamic programming over the fingers of two notes that follow one
 * another, because the model looks at three.
 *
 * @param keys MIDI numbers of the notes in time.
 * Source of the model: Parncutt et al. 1997 (see fingering-cost.ts).
 */
export function solveFingering(keys: readonly number[], hand: HandName): Fingering {
  const [first, second] = keys;
  if (first === undefined) return { fingers: [], cost: 0 };
  if (second === undefined) return cheapest(fingers.map((finger) => alone(first, hand, finger)));
  let ways = new Map<number, Way>();
  for (const a of fingers) {
    for (const b of fingers) {
      const [one, two] = [toKey(first, hand, a), toKey(second, hand, b)];
      const cost = pairCost(one, two) + middleCost(null, one, two) + weakFinger(a) + weakFinger(b);
      ways.set(pairOf(a, b), { cost, fingers: [a, b] });
    }
  }
  for (const [index, midi] of keys.entries()) if (index >= 2) ways = goOn(ways, keys, index, midi, hand);
  const ended = [...ways.values()].map(({ cost, fingers: chosen }) => {
    const [before, last] = lastTwo(keys, chosen, hand);
    return { cost: cost + middleCost(before, last, null), fingers: chosen };
  });
  return cheapest(ended);
}

const pairOf = (a: Finger, b: Finger) => a * 10 + b;

const alone = (midi: number, hand: HandName, finger: Finger): Fingering => ({
  fingers: [finger],
  cost: costOfFingering([midi], hand, [finger]),
});

function lastTwo(
  keys: readonly number[],
  chosen: readonly Finger[],
  hand: HandName,
): [FingeredKey, FingeredKey] {
  const at = (index: number) => toKey(keys[index] as number, hand, chosen[index] as Finger);
  return [at(chosen.length - 2), at(chosen.length - 1)];
}

function goOn(
  ways: ReadonlyMap<number, Way>,
  keys: readonly number[],
  index: number,
  midi: number,
  hand: HandName,
) {
  const next = new Map<number, Way>();
  for (const { cost, fingers: chosen } of ways.values()) {
    const [before, middle] = lastTwo(keys.slice(0, index), chosen, hand);
    for (const finger of fingers) {
      const key = toKey(midi, hand, finger);
      const total = cost + pairCost(middle, key) + middleCost(before, middle, key) + weakFinger(finger);
      const pair = pairOf(middle.finger, finger);
      if (total < (next.get(pair)?.cost ?? Number.POSITIVE_INFINITY)) {
        next.set(pair, { cost: total, fingers: [...chosen, finger] });
      }
    }
  }
  return next;
}

function cheapest(all: readonly Fingering[]): Fingering {
  return all.reduce((best, other) => (other.cost < best.cost ? other : best));
}
