import type { HandStroke } from "../hand-stroke";
import type { HandName, HandsProfile } from "../hands-profile";
import { keyMillimetres, octaveMillimetres } from "../reach-of-span";
import type { Found } from "./found";

/** Seconds for each bit of Fitts's law. No constants are published for the piano: ours, set by eye at stride basses. */
const secondsPerBit = 0.07;

/**
 * Seconds that a hand takes to travel and land: b · log2(D ÷ W + 1), Fitts's law (1954) in Shannon's form without its
 * constant; 0 when the hand stays. For ranking, not for a promise: an octave 0.21 s, two octaves 0.27 s.
 */
export function leapSeconds(semitones: number): number {
  const distance = (semitones * octaveMillimetres) / 12;
  return secondsPerBit * Math.log2(distance / keyMillimetres + 1);
}

const need = Array.from({ length: 128 }, (_, semitones) => leapSeconds(semitones));

/** More than this is out of the question, at any tempo that is looked at. */
const most = 2;

/** For each stroke the places where the lowest finger may lie so that the hand covers it, and the best way to each. */
interface Ways {
  /** Of stroke `n`: keys from `from[n]` to `to[n]`. */
  readonly from: number[];
  readonly to: number[];
  /** Of stroke `n` from place `n * stride` on: the least of the worst step's load on the way there. */
  readonly worst: Float64Array;
  /** Semitones of that way: of ways that are as easy, the one on which the hand moves least. */
  readonly moved: Float64Array;
  /** The key that the lowest finger comes from. */
  readonly before: Int16Array;
  readonly stride: number;
}

/**
 * The hardest leap of a hand that goes the best way: places are chosen so that the worst step is as easy as can be. Exact;
 * a hand with more reach has more places, and leaving a stroke out leaves more time for the same way.
 *
 * @returns null when the hand need not move.
 */
export function findLeap(strokes: readonly HandStroke[], hands: HandsProfile, hand: HandName): Found | null {
  const { possible } = hands[hand];
  const firstInBar = strokes.findIndex(({ isBefore }) => !isBefore);
  if (firstInBar === -1) return null;
  const way = strokes.slice(Math.max(0, firstInBar - 1));
  const from = way.map(({ lowest, highest }) => Math.min(lowest, highest - possible));
  const to = way.map(({ lowest }) => lowest);
  if (Math.max(...from) <= Math.min(...to)) return null;
  const stride = possible + 1;
  const size = way.length * stride;
  const [worst, moved] = [new Float64Array(size), new Float64Array(size)];
  const ways: Ways = { from, to, worst, moved, before: new Int16Array(size), stride };
  for (let index = 1; index < way.length; index += 1) {
    takeStep(ways, index, hands.leaps / secondsTo(way, index));
  }
  return tellWorst(way, ways, hands, hand);
}

function takeStep({ from, to, worst, moved, before, stride }: Ways, index: number, perSecond: number): void {
  const [first, last] = [from[index] as number, to[index] as number];
  const [firstBefore, lastBefore] = [from[index - 1] as number, to[index - 1] as number];
  const [here, there] = [index * stride - first, (index - 1) * stride - firstBefore];
  for (let place = first; place <= last; place += 1) {
    let [best, least, bestBefore] = [Number.POSITIVE_INFINITY, 0, firstBefore];
    for (let other = firstBefore; other <= lastBefore; other += 1) {
      const semitones = Math.abs(place - other);
      const load = Math.max(worst[there + other] as number, (need[semitones] as number) * perSecond);
      if (load > best) continue;
      const way = (moved[there + other] as number) + semitones;
      if (load < best || way < least) [best, least, bestBefore] = [load, way, other];
    }
    worst[here + place] = best;
    moved[here + place] = least;
    before[here + place] = bestBefore;
  }
}

function tellWorst(
  way: readonly HandStroke[],
  ways: Ways,
  hands: HandsProfile,
  hand: HandName,
): Found | null {
  let place = bestEnd(ways, way.length - 1);
  let [hardest, figure, at] = [0, 0, 0];
  for (let index = way.length - 1; index > 0; index -= 1) {
    const before = ways.before[index * ways.stride + place - (ways.from[index] as number)] as number;
    const load = ((need[Math.abs(place - before)] as number) * hands.leaps) / secondsTo(way, index);
    // Of equals the first: the others may only be as hard because that one is.
    if (load >= hardest) [hardest, figure, at] = [load, Math.abs(place - before), index];
    place = before;
  }
  if (hardest === 0) return null;
  const about = { kind: "leap", hand, isTimed: true, load: hardest, figure } as const;
  const limit = (need[figure] as number) * hands.leaps;
  return { ...about, limit, availableSeconds: secondsTo(way, at), strokes: way.slice(at - 1, at + 1) };
}

const secondsTo = (way: readonly HandStroke[], index: number): number =>
  (way[index] as HandStroke).seconds - (way[index - 1] as HandStroke).seconds;

/** The easiest last place, of equals the one with the least way. */
function bestEnd({ from, to, worst, moved, stride }: Ways, index: number): number {
  const [first, last] = [from[index] as number, to[index] as number];
  const here = index * stride - first;
  let best = first;
  for (let place = first + 1; place <= last; place += 1) {
    const difference = (worst[here + place] as number) - (worst[here + best] as number);
    const isNearer = (moved[here + place] as number) < (moved[here + best] as number);
    if (difference < 0 || (difference === 0 && isNearer)) best = place;
  }
  return best;
}

/** The load of a leap at a tempo, which never says more than that it cannot be done. */
export const capLeap = (load: number): number => Math.min(most, load);
