import { type HandStroke, highestOf, lowestOf } from "../hand-stroke";
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

/** Where the lowest finger may lie so that the hand covers the stroke: keys from `from` to `to`. */
function placesFor(stroke: HandStroke, possible: number): { from: number; to: number } {
  const [low, high] = [lowestOf(stroke), highestOf(stroke)];
  return { from: high - Math.max(possible, high - low), to: low };
}

interface Step {
  /** The least of the worst step's load on the way to each place, from `from` on. */
  readonly from: number;
  readonly worst: Float64Array;
  /** The way there in semitones: of ways that are as easy, the one on which the hand moves least. */
  readonly moved: Uint16Array;
  /** The place before, for each place. */
  readonly before: Int16Array;
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
  const steps: Step[] = [];
  for (const [index, stroke] of way.entries()) {
    const { from, to } = placesFor(stroke, possible);
    const previous = steps.at(-1);
    const seconds = stroke.seconds - (way[index - 1]?.seconds ?? 0);
    steps.push(previous ? takeStep(previous, from, to, hands.leaps / seconds) : start(from, to));
  }
  return tellWorst(way, steps, hands, hand);
}

function start(from: number, to: number): Step {
  const size = to - from + 1;
  return {
    from,
    worst: new Float64Array(size),
    moved: new Uint16Array(size),
    before: new Int16Array(size),
  };
}

function takeStep(previous: Step, from: number, to: number, perSecond: number): Step {
  const step = start(from, to);
  for (let place = from; place <= to; place += 1) {
    let [best, least, bestBefore] = [Number.POSITIVE_INFINITY, 0, previous.from];
    for (let index = 0; index < previous.worst.length; index += 1) {
      const before = previous.from + index;
      const semitones = Math.abs(place - before);
      const load = Math.max(previous.worst[index] as number, (need[semitones] as number) * perSecond);
      if (load > best) continue;
      const moved = (previous.moved[index] as number) + semitones;
      if (load < best || moved < least) [best, least, bestBefore] = [load, moved, before];
    }
    const index = place - from;
    step.worst[index] = best;
    step.moved[index] = least;
    step.before[index] = bestBefore;
  }
  return step;
}

function tellWorst(
  way: readonly HandStroke[],
  steps: readonly Step[],
  hands: HandsProfile,
  hand: HandName,
): Found | null {
  const last = steps.at(-1);
  if (!last) return null;
  let place = bestEnd(last);
  let hardest: Found | null = null;
  for (let index = steps.length - 1; index > 0; index -= 1) {
    const step = steps[index] as Step;
    const before = step.before[place - step.from] as number;
    const [stroke, strokeBefore] = [way[index] as HandStroke, way[index - 1] as HandStroke];
    const availableSeconds = stroke.seconds - strokeBefore.seconds;
    const limit = (need[Math.abs(place - before)] as number) * hands.leaps;
    const load = limit / availableSeconds;
    // Of equals the first: the others may only be as hard because that one is.
    if (load > 0 && load >= (hardest?.load ?? 0)) {
      const figure = Math.abs(place - before);
      const about = { kind: "leap", hand, isTimed: true } as const;
      hardest = { ...about, load, figure, limit, availableSeconds, strokes: [strokeBefore, stroke] };
    }
    place = before;
  }
  return hardest;
}

function bestEnd({ from, worst, moved }: Step): number {
  let best = 0;
  for (let index = 1; index < worst.length; index += 1) {
    const difference = (worst[index] as number) - (worst[best] as number);
    const isNearer = (moved[index] as number) < (moved[best] as number);
    if (difference < 0 || (difference === 0 && isNearer)) best = index;
  }
  return from + best;
}

/** The load of a leap at a tempo, which never says more than that it cannot be done. */
export const capLeap = (load: number): number => Math.min(most, load);
