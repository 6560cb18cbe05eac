import type { Finger } from "@/lib/hands/fingering/pair-spans";

/**
 * The twelve rules one by one, as plainly as can be, for the right hand: to hold the solver's own cost against.
 * Source: Parncutt, Sloboda, Clarke, Raekallio & Desain 1997, Music Perception 14(4); the weights are from memory of the
 * paper. What a finger costs that plays two keys in turn is not in it: 12 and a point for each semitone, ours; from the
 * first to the third note, one and a point for each semitone.
 */
type Span = readonly [minPractical: number, number, number, number, number, maxPractical: number];

const spans: Readonly<Record<string, Span>> = {
  12: [-5, -3, 1, 5, 8, 10],
  13: [-4, -2, 3, 7, 10, 12],
  14: [-3, -1, 5, 9, 12, 14],
  15: [-1, 1, 7, 10, 13, 15],
  23: [1, 1, 1, 2, 3, 5],
  24: [1, 1, 3, 4, 5, 7],
  25: [2, 2, 5, 6, 8, 10],
  34: [1, 1, 1, 2, 2, 4],
  35: [1, 1, 3, 4, 5, 7],
  45: [1, 1, 1, 2, 3, 5],
};

/** Which way round the fingers are put down does not matter: the interval is turned with them. */
function spanOf(a: Finger, b: Finger, semitones: number): { span: Span; semitones: number } | null {
  const span = spans[`${Math.min(a, b)}${Math.max(a, b)}`];
  return span ? { span, semitones: a < b ? semitones : -semitones } : null;
}

/** Semitones outside of two bounds. */
const outside = (semitones: number, least: number, most: number) =>
  semitones < least ? least - semitones : semitones > most ? semitones - most : 0;

interface Line {
  readonly keys: readonly number[];
  readonly fingers: readonly Finger[];
  readonly isBlack: (midi: number) => boolean;
}

export const rules: Readonly<Record<string, (line: Line) => number>> = {
  "1 stretch": (line) =>
    ofPairs(line, (a, b, semitones) => {
      const found = spanOf(a, b, semitones);
      if (!found) return semitones === 0 ? 0 : 12 + Math.abs(semitones);
      return 2 * outside(found.semitones, found.span[1], found.span[4]);
    }),
  "2 small span": (line) =>
    ofPairs(line, (a, b, semitones) => {
      const found = spanOf(a, b, semitones);
      const least = found ? Math.max(0, found.span[2] - found.semitones) : 0;
      return least * (a === 1 || b === 1 ? 1 : 2);
    }),
  "3 large span": (line) =>
    ofPairs(line, (a, b, semitones) => {
      const found = spanOf(a, b, semitones);
      const most = found ? Math.max(0, found.semitones - found.span[3]) : 0;
      return most * (a === 1 || b === 1 ? 1 : 2);
    }),
  "4 position change, count": (line) =>
    ofTriples(line, ([a, b, c], [x, y, z]) => {
      const found = spanOf(a, c, z - x);
      if (!found) return x === z ? 0 : 1;
      const { span, semitones } = found;
      if (outside(semitones, span[1], span[4]) === 0) return 0;
      const isBetween = (x < y && y < z) || (x > y && y > z);
      return b === 1 && isBetween && outside(semitones, span[0], span[5]) > 0 ? 2 : 1;
    }),
  "5 position change, size": (line) =>
    ofTriples(line, ([a, , c], [x, , z]) => {
      const found = spanOf(a, c, z - x);
      return found ? outside(found.semitones, found.span[1], found.span[4]) : Math.abs(z - x);
    }),
  "6 weak finger": ({ fingers }) => fingers.filter((finger) => finger === 4 || finger === 5).length,
  "7 three, four, five": (line) =>
    ofTriples(line, (of) => (["3", "4", "5"].every((each) => of.map(String).includes(each)) ? 1 : 0)),
  "8 three to four": (line) => ofPairs(line, (a, b) => (a === 3 && b === 4 ? 1 : 0)),
  "9 four on black": ({ keys, fingers, isBlack }) =>
    fingers.slice(1).filter((b, index) => {
      const [a, x, y] = [fingers[index], keys[index] ?? 0, keys[index + 1] ?? 0];
      return (
        (a === 3 && b === 4 && !isBlack(x) && isBlack(y)) || (a === 4 && b === 3 && isBlack(x) && !isBlack(y))
      );
    }).length,
  "10 thumb on black": ({ keys, fingers, isBlack }) =>
    sum(fingers, (finger, index) =>
      finger === 1 && isBlack(keys[index] ?? 0) ? 1 + 2 * whiteBeside(keys, index, isBlack) : 0,
    ),
  "11 five on black": ({ keys, fingers, isBlack }) =>
    sum(fingers, (finger, index) =>
      finger === 5 && isBlack(keys[index] ?? 0) ? 2 * whiteBeside(keys, index, isBlack) : 0,
    ),
  "12 thumb passing": ({ keys, fingers, isBlack }) =>
    sum(fingers.slice(1), (second, index) => {
      const notes = [
        { finger: fingers[index], midi: keys[index] ?? 0 },
        { finger: second, midi: keys[index + 1] ?? 0 },
      ].sort((a, b) => a.midi - b.midi);
      const [lower, upper] = notes;
      if (!lower || !upper || lower.midi === upper.midi) return 0;
      if (upper.finger !== 1 || lower.finger === 1) return 0;
      if (isBlack(lower.midi) === isBlack(upper.midi)) return 1;
      return isBlack(upper.midi) ? 3 : 0;
    }),
};

/** All twelve together. */
export const costByRules = (line: Line): number => sum(Object.values(rules), (rule) => rule(line));

function sum<T>(list: readonly T[], of: (item: T, index: number) => number): number {
  return list.reduce((all, item, index) => all + of(item, index), 0);
}

function ofPairs({ keys, fingers }: Line, of: (a: Finger, b: Finger, semitones: number) => number): number {
  return sum(fingers.slice(1), (b, index) =>
    of(fingers[index] as Finger, b, (keys[index + 1] ?? 0) - (keys[index] ?? 0)),
  );
}

type Three<T> = readonly [T, T, T];

function ofTriples(
  { keys, fingers }: Line,
  of: (fingers: Three<Finger>, keys: Three<number>) => number,
): number {
  return sum(fingers.slice(2), (_, index) =>
    of(
      fingers.slice(index, index + 3) as unknown as Three<Finger>,
      keys.slice(index, index + 3) as unknown as Three<number>,
    ),
  );
}

const whiteBeside = (keys: readonly number[], index: number, isBlack: (midi: number) => boolean): number =>
  [keys[index - 1], keys[index + 1]].filter((midi) => midi !== undefined && !isBlack(midi)).length;
