import { type HandStroke, highestOf, lowestOf, spanOf } from "../hand-stroke";
import type { HandName, HandsProfile } from "../hands-profile";
import type { StrainKind } from "../strain";
import type { Found } from "./found";

/** Strokes that make a rate: fewer are over before a hand tires, and a single quick pair is no rate. Ours. */
const [chordWindow, keyWindow, runWindow] = [4, 4, 6];

const octave = 12;

/** Two notes at once go a little faster than chords. Ours. */
const pairFactor = 1.3;

const isPair = ({ notes }: HandStroke) => notes.length > 1;
const isWide = (stroke: HandStroke) => spanOf(stroke) >= octave;
const isChord = (stroke: HandStroke) => stroke.notes.length > 2 || isWide(stroke);

/**
 * The fastest strokes of the hand against what is comfortable. Each rate is counted among the strokes that are at least
 * so heavy, whatever lies between them, so that leaving a note out never makes a rate harder.
 */
export function findRates(strokes: readonly HandStroke[], hands: HandsProfile, hand: HandName): Found[] {
  const chords = hands.repeatedChords;
  const fastest = new Map<StrainKind, Found>();
  const keep = (found: Found) => {
    if (found.load > (fastest.get(found.kind)?.load ?? 0)) fastest.set(found.kind, found);
  };
  const count = (
    of: readonly HandStroke[],
    size: number,
    kind: (window: readonly HandStroke[]) => StrainKind,
    limit: number,
  ) => {
    for (const window of windows(of, size)) keep(rate(kind(window), window, limit, hand));
  };
  count(strokes, runWindow, () => "run", hands.runs);
  count(strokes.filter(isPair), chordWindow, kindOfChords, chords * pairFactor);
  count(strokes.filter(isChord), chordWindow, kindOfChords, chords);
  count(strokes.filter(isWide), chordWindow, kindOfChords, Math.min(hands.octavesInARow, chords));
  for (const ofKey of strokesByKey(strokes))
    count(ofKey, keyWindow, () => "repeated note", hands.repeatedNotes);
  return [...fastest.values()];
}

/** So many strokes that follow one another, as far as they end in the bar. */
function* windows(strokes: readonly HandStroke[], size: number): Generator<readonly HandStroke[]> {
  for (let end = size; end <= strokes.length; end += 1) {
    if (!(strokes[end - 1] as HandStroke).isBefore) yield strokes.slice(end - size, end);
  }
}

/** Within an octave the hand stays where it is: the chords are repeated, whatever their inner notes do. */
function kindOfChords(window: readonly HandStroke[]): StrainKind {
  const width = Math.max(...window.map(highestOf)) - Math.min(...window.map(lowestOf));
  return width <= octave ? "repeated chord" : "octaves in a row";
}

function rate(kind: StrainKind, window: readonly HandStroke[], limit: number, hand: HandName): Found {
  const seconds = (window.at(-1)?.seconds ?? 0) - (window[0]?.seconds ?? 0);
  const figure = (window.length - 1) / seconds;
  return { kind, hand, load: figure / limit, isTimed: true, figure, limit, strokes: window };
}

function strokesByKey(strokes: readonly HandStroke[]): Iterable<HandStroke[]> {
  const byKey = new Map<number, HandStroke[]>();
  for (const stroke of strokes) {
    for (const { midi } of stroke.notes) {
      const ofKey = byKey.get(midi);
      if (ofKey) ofKey.push(stroke);
      else byKey.set(midi, [stroke]);
    }
  }
  return byKey.values();
}
