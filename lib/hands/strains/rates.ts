import { type HandStroke, highestOf, lowestOf, spanOf } from "../hand-stroke";
import type { HandName, HandsProfile } from "../hands-profile";
import type { StrainKind } from "../strain";
import type { Found } from "./found";
import { leastOfRocking } from "./rocking";

/** Strokes that make a rate: fewer are over before a hand tires, and a turn or a mordent is no run. Ours. */
const [chordWindow, keyWindow, runWindow] = [4, 4, 8];

/** Moments before a bar that its rates look back to. */
export const longestLookBack = runWindow - 1;

const octave = 12;

/** Two notes at once go a little faster than chords. Ours. */
const pairFactor = 1.3;

const isPair = ({ notes }: HandStroke) => notes.length > 1;
const isWide = (stroke: HandStroke) => spanOf(stroke) >= octave;
const isChord = (stroke: HandStroke) => stroke.notes.length > 2 || isWide(stroke);

/** Strokes of one sort that follow one another, whatever lies between them. */
interface Sort {
  readonly strokes: readonly HandStroke[];
  readonly size: number;
  readonly kind: (window: readonly HandStroke[]) => StrainKind;
  /** A second, with ease. */
  readonly limit: number;
  /** The same for each side of a hand that rocks to and fro; null where it does not help. */
  readonly limitOfSide: number | null;
}

/**
 * The fastest strokes of the hand against what is comfortable. Each rate is counted among the strokes that are at least
 * so heavy, whatever lies between them, so that leaving a note out never makes a rate harder. A hand that rocks between
 * its two sides strikes with each of them only every other time: where that is easier, it counts.
 */
export function findRates(strokes: readonly HandStroke[], hands: HandsProfile, hand: HandName): Found[] {
  const fastest = new Map<StrainKind, Found>();
  for (const sort of sortsOf(strokes, hands)) {
    const found = findFastest(sort, hand);
    if (found && found.load > (fastest.get(found.kind)?.load ?? 0)) fastest.set(found.kind, found);
  }
  return [...fastest.values()];
}

function sortsOf(strokes: readonly HandStroke[], hands: HandsProfile): Sort[] {
  const chords = hands.repeatedChords;
  const ofChords = (heavy: readonly HandStroke[], limit: number): Sort => ({
    ...{ strokes: heavy, size: chordWindow, kind: kindOfChords, limit, limitOfSide: limit },
  });
  return [
    {
      ...{ strokes, size: runWindow, kind: () => "run", limit: hands.runs },
      limitOfSide: hands.repeatedNotes,
    },
    ofChords(strokes.filter(isPair), chords * pairFactor),
    ofChords(strokes.filter(isChord), chords),
    ofChords(strokes.filter(isWide), Math.min(hands.octavesInARow, chords)),
    ...strokesByKey(strokes).map(
      (ofKey): Sort => ({
        ...{ strokes: ofKey, size: keyWindow, kind: () => "repeated note" },
        ...{ limit: hands.repeatedNotes, limitOfSide: null },
      }),
    ),
  ];
}

function findFastest({ strokes, size, kind, limit, limitOfSide }: Sort, hand: HandName): Found | null {
  let [figure, end] = [0, 0];
  for (let index = size - 1; index < strokes.length; index += 1) {
    const last = strokes[index] as HandStroke;
    if (last.isBefore) continue;
    const rate = (size - 1) / (last.seconds - (strokes[index - size + 1] as HandStroke).seconds);
    if (rate > figure) [figure, end] = [rate, index];
  }
  if (figure === 0) return null;
  const whole = figure / limit;
  const load = limitOfSide === null ? whole : leastOfRocking(strokes, chordWindow, limitOfSide, whole);
  const window = strokes.slice(end - size + 1, end + 1);
  const about = { kind: kind(window), hand, load, isTimed: true, figure } as const;
  return { ...about, limit: load === whole ? limit : figure / load, strokes: window };
}

/** Within an octave the hand stays where it is: the chords are repeated, whatever their inner notes do. */
function kindOfChords(window: readonly HandStroke[]): StrainKind {
  const width = Math.max(...window.map(highestOf)) - Math.min(...window.map(lowestOf));
  return width <= octave ? "repeated chord" : "octaves in a row";
}

function strokesByKey(strokes: readonly HandStroke[]): HandStroke[][] {
  const byKey = new Map<number, HandStroke[]>();
  for (const stroke of strokes) {
    for (const { midi } of stroke.notes) {
      const ofKey = byKey.get(midi);
      if (ofKey) ofKey.push(stroke);
      else byKey.set(midi, [stroke]);
    }
  }
  return [...byKey.values()];
}
