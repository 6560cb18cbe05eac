import type { HandStroke } from "../hand-stroke";
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
export const isWide = ({ lowest, highest }: HandStroke) => highest - lowest >= octave;
const isChord = (stroke: HandStroke) => stroke.notes.length > 2 || isWide(stroke);

/** The fastest so many strokes that follow one another, as far as they end in the bar. */
interface Fastest {
  /** A second. */
  readonly figure: number;
  readonly window: readonly HandStroke[];
}

/**
 * The fastest strokes of the hand against what is comfortable. Each rate is counted among the strokes that are at least
 * so heavy, whatever lies between them, so that leaving a note out never makes a rate harder. A hand that rocks between
 * its two sides strikes with each of them only every other time: where that is easier, it counts.
 */
export function findRates(strokes: readonly HandStroke[], hands: HandsProfile, hand: HandName): Found[] {
  const key = findRepeatedKey(strokes, hands, hand);
  const chords = hands.repeatedChords;
  const pairs = strokes.filter(isPair);
  const heavy = pairs.filter(isChord);
  const ofChords = (of: readonly HandStroke[], limit: number) =>
    findRate(of, chordWindow, limit, limit, hand, key?.load ?? 0);
  const found = [
    findRate(strokes, runWindow, hands.runs, hands.repeatedNotes, hand, key?.load ?? 0),
    ofChords(pairs, chords * pairFactor),
    ofChords(heavy, chords),
    ofChords(heavy.filter(isWide), Math.min(hands.octavesInARow, chords)),
    key,
  ];
  return heaviestOfKind(found.filter((each) => each !== null));
}

function heaviestOfKind(found: readonly Found[]): Found[] {
  const heaviest = new Map<StrainKind, Found>();
  for (const each of found)
    if (each.load > (heaviest.get(each.kind)?.load ?? 0)) heaviest.set(each.kind, each);
  return [...heaviest.values()];
}

/**
 * @param size of a window, and for what kind of strokes: runs look at more than chords.
 * @param limit strokes a second, with ease.
 * @param limitOfSide the same for each side of a hand that rocks.
 * @param heavier what the hand has to bear anyway: below it, rocking makes nothing easier.
 */
function findRate(
  strokes: readonly HandStroke[],
  size: number,
  limit: number,
  limitOfSide: number,
  hand: HandName,
  heavier: number,
): Found | null {
  const fastest = findFastest(strokes, size);
  if (fastest === null) return null;
  const { figure, window } = fastest;
  const whole = figure / limit;
  const load = whole <= heavier ? whole : leastOfRocking(strokes, chordWindow, limitOfSide, whole);
  const kind = size === runWindow ? "run" : kindOfChords(window);
  const told = load === whole ? limit : figure / load;
  return { kind, hand, load, isTimed: true, figure, limit: told, strokes: window };
}

function findFastest(strokes: readonly HandStroke[], size: number): Fastest | null {
  let [figure, end] = [0, 0];
  for (let index = size - 1; index < strokes.length; index += 1) {
    const last = strokes[index] as HandStroke;
    if (last.isBefore) continue;
    const rate = (size - 1) / (last.seconds - (strokes[index - size + 1] as HandStroke).seconds);
    if (rate > figure) [figure, end] = [rate, index];
  }
  return figure === 0 ? null : { figure, window: strokes.slice(end - size + 1, end + 1) };
}

/** Within an octave the hand stays where it is: the chords are repeated, whatever their inner notes do. */
function kindOfChords(window: readonly HandStroke[]): StrainKind {
  const width =
    Math.max(...window.map(({ highest }) => highest)) - Math.min(...window.map(({ lowest }) => lowest));
  return width <= octave ? "repeated chord" : "octaves in a row";
}

function findRepeatedKey(
  strokes: readonly HandStroke[],
  { repeatedNotes: limit }: HandsProfile,
  hand: HandName,
): Found | null {
  const byKey = new Map<number, HandStroke[]>();
  for (const stroke of strokes) {
    for (const { midi } of stroke.notes) {
      const ofKey = byKey.get(midi);
      if (ofKey) ofKey.push(stroke);
      else byKey.set(midi, [stroke]);
    }
  }
  let fastest: Fastest | null = null;
  for (const ofKey of byKey.values()) {
    const found = findFastest(ofKey, keyWindow);
    if (found && found.figure > (fastest?.figure ?? 0)) fastest = found;
  }
  if (fastest === null) return null;
  const { figure, window } = fastest;
  return { kind: "repeated note", hand, load: figure / limit, isTimed: true, figure, limit, strokes: window };
}
