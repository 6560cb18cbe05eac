import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { type BarEvent, byOctaves, endOf, isOnMultiple, isSameChord, midiOf } from "../bar-event";
import { eventsOfHand, type Hand, type Operator } from "./operator";
import { findRuns, type Run, replaceRuns } from "./runs";

/** A tremolo of two wants a third or more between its sides. Common practice. */
const leastInterval = 3;
const thirtySeconds = 3;
const octave = 12;

/** Repeated octaves and chords become a tremolo between their lower and their upper notes; a repeated note, with its octave. */
export function tremoloFor(hand: Hand): Operator {
  return {
    words: `tremolo for the repeated ${hand === "right" ? "chords" : "chords of the left hand"}`,
    apply: (events, bar) => {
      const runs = findRuns(eventsOfHand(events, hand, bar), 4, isSameChord);
      const most = bar.reach[hand];
      const able = runs.filter((run) => sidesOf(run[0] as BarEvent, hand, most) !== null);
      if (able.length === 0) return null;
      return replaceRuns(events, able, (run) => rock(run, sidesOf(run[0] as BarEvent, hand, most) as Sides));
    },
  };
}

/** A written-out tremolo, stroke by stroke between two sides of the hand, without counting. */
export function uncounted(hand: Hand): Operator {
  return {
    words: `an uncounted tremolo${hand === "right" ? "" : " of the left hand"}`,
    apply: (events, bar) => {
      const most = bar.reach[hand];
      const runs = findRuns(eventsOfHand(events, hand, bar), leastRocked, isBeside(most))
        .flatMap(splitWhereOther)
        .filter((run) => run.length >= leastRocked);
      if (runs.length === 0) return null;
      return replaceRuns(events, runs, (run) =>
        rock(run, { pitches: (run[0] as BarEvent).pitches, other: (run[1] as BarEvent).pitches }),
      );
    },
  };
}

/** Strokes that make a tremolo: three to and three fro. Ours. */
const leastRocked = 6;

/** Two chords side by side under one hand, a third or more apart. */
const isBeside = (most: number) => (a: BarEvent, b: BarEvent) => {
  const [under, over] =
    midiOf(a.pitches[0] as RewritePitch) < midiOf(b.pitches[0] as RewritePitch) ? [a, b] : [b, a];
  const [low, high] = [under.pitches[0], over.pitches.at(-1)].map((pitch) => midiOf(pitch as RewritePitch));
  const gap = midiOf(over.pitches[0] as RewritePitch) - midiOf(under.pitches.at(-1) as RewritePitch);
  const isPlain = a.tremolo === null && b.tremolo === null;
  return isPlain && gap >= leastInterval && (high as number) - (low as number) <= most;
};

/** Parts of a run in which every other event is the same chord. */
function splitWhereOther(run: Run): Run[] {
  const parts: BarEvent[][] = [];
  for (const event of run) {
    const part = parts.at(-1);
    const other = part?.at(-2);
    if (part && (other === undefined || isSameChord(other, event))) part.push(event);
    else parts.push([event]);
  }
  return parts;
}

interface Sides {
  readonly pitches: BarEvent["pitches"];
  readonly other: BarEvent["pitches"];
}

/** The two sides between which a chord is rocked; the thumb's side first. Null when the hand cannot. */
function sidesOf({ pitches }: BarEvent, hand: Hand, most: number): Sides | null {
  const [low, high] = [pitches[0], pitches.at(-1)];
  if (!low || !high || midiOf(high) - midiOf(low) > most) return null;
  if (pitches.length === 1) {
    if (most < octave) return null;
    // The melody stays on top, the bass at the bottom.
    const sides = hand === "right" ? [byOctaves(low, -1), low] : [low, byOctaves(low, 1)];
    return { pitches: [sides[0] as typeof low], other: [sides[1] as typeof low] };
  }
  for (let split = 1; split < pitches.length; split += 1) {
    const [under, over] = [pitches[split - 1], pitches[split]];
    if (under && over && midiOf(over) - midiOf(under) >= leastInterval) {
      return { pitches: pitches.slice(0, split), other: pitches.slice(split) };
    }
  }
  return null;
}

function rock(run: Run, sides: Sides): BarEvent[] {
  const [first, last] = [run[0] as BarEvent, run.at(-1) as BarEvent];
  return chunks(first.offset, endOf(last)).map(({ from, length }, index) => ({
    ...first,
    ...{ offset: from, length, pitches: sides.pitches, tied: [], isRolled: false },
    tremolo: { strokes: thirtySeconds, other: sides.other },
    isAccented: index === 0 ? first.isAccented : run.some((event) => event.isAccented && isAt(event, from)),
  }));
}

const isAt = (event: BarEvent, at: Quarters) => compareQuarters(event.offset, at) === 0;

/** Note values that a tremolo is written in. */
const values = [quarters(4), quarters(2), quarters(1), quarters(1, 2), quarters(1, 4)];

/** A stretch in note values, each beginning on a multiple of itself, as a copyist would write it. */
function chunks(from: Quarters, to: Quarters): { from: Quarters; length: Quarters }[] {
  const found: { from: Quarters; length: Quarters }[] = [];
  let at = from;
  while (compareQuarters(at, to) < 0) {
    const left = subtractQuarters(to, at);
    const length =
      values.find((value) => compareQuarters(value, left) <= 0 && isOnMultiple(at, value)) ?? left;
    found.push({ from: at, length });
    at = addQuarters(at, length);
  }
  return found;
}
