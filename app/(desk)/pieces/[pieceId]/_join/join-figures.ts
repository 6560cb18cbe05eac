import type { JoinFigure, JoinRow } from "@/lib/cuts/join/join-row";
import { sayFifths } from "@/lib/harmony/say-key";

/** Every figure is drawn in this box; the join is the dashed line in its middle. */
export const figureWidth = 92;
export const figureHeight = 24;
export const joinX = figureWidth / 2;

const numberOf = (figure: JoinFigure | undefined): number | null =>
  typeof figure === "number" ? figure : null;
const textOf = (figure: JoinFigure | undefined): string => (typeof figure === "string" ? figure : "");
const listOf = (figure: JoinFigure | undefined): readonly (number | null)[] =>
  figure !== null && typeof figure === "object" ? figure : [];

export interface KeyFigure {
  /** Of every place on the line of fifths that is drawn, flats on the left. */
  readonly xs: readonly number[];
  readonly beforeX: number;
  readonly afterX: number;
  readonly steps: number;
}

/** So many places of the line of fifths are drawn at least. */
const leastPlaces = 5;

/** Both keys on the line of fifths, by their signatures; null where a key is not known. */
export function layKey({ figures }: Pick<JoinRow, "figures">): KeyFigure | null {
  const [before, after] = [numberOf(figures.fifthsBefore), numberOf(figures.fifthsAfter)];
  if (before === null || after === null) return null;
  const [low, high] = [Math.min(before, after), Math.max(before, after)];
  const count = Math.max(leastPlaces, high - low + 1);
  const first = low - Math.floor((count - (high - low + 1)) / 2);
  const xOf = (place: number) => 8 + ((place - first) * (figureWidth - 16)) / (count - 1);
  return {
    xs: Array.from({ length: count }, (_, index) => xOf(first + index)),
    beforeX: xOf(before),
    afterX: xOf(after),
    steps: Math.abs(after - before),
  };
}

const suffixes: Readonly<Record<string, string>> = {
  ...{ major: "", minor: "m", diminished: "°", augmented: "+", "dominant-seventh": "7" },
  ...{ "minor-seventh": "m7", "major-seventh": "M7", "half-diminished": "ø7", "diminished-seventh": "°7" },
};

/** The spelling of a pitch class that lies nearest to a key on the line of fifths, from ♭II to ♯IV. */
function spell(pitchClass: number, tonicFifths: number): string {
  for (let fifths = tonicFifths - 5; fifths <= tonicFifths + 6; fifths += 1) {
    if ((((fifths * 7) % 12) + 12) % 12 === pitchClass) return sayFifths(fifths);
  }
  return "";
}

function chordOn(row: JoinRow, key: JoinRow | undefined, side: "Before" | "After"): string | null {
  const root = numberOf(row.figures[`root${side}`]);
  if (root === null) return null;
  const signature = numberOf(key?.figures[`fifths${side}`]) ?? 0;
  const tonic = signature + (key?.figures[`mode${side}`] === "minor" ? 3 : 0);
  return spell(root, tonic) + (suffixes[textOf(row.figures[`quality${side}`])] ?? "");
}

/** The chords on both sides as they are written over a staff, "B♭7"; null on a silent side. */
export function layChords(
  row: JoinRow,
  key: JoinRow | undefined,
): { before: string | null; after: string | null } {
  return { before: chordOn(row, key, "Before"), after: chordOn(row, key, "After") };
}

export interface PhraseSide {
  /** Of the bar lines that are drawn. */
  readonly ticks: readonly number[];
  /** Where phrases begin. On the left side one that begins with the join closes what was before. */
  readonly starts: readonly number[];
}

const barWidth = 10;

/** Bar lines and beginnings of phrases, four bars on each side of the join. */
export function layPhrases({ figures }: Pick<JoinRow, "figures">): { before: PhraseSide; after: PhraseSide } {
  const side = (starts: readonly (number | null)[], first: number, x: number): PhraseSide => {
    const xOf = (step: number) => x + (step - first) * barWidth;
    return {
      ticks: [0, 1, 2, 3, 4].map((step) => xOf(first + step)),
      starts: starts.flatMap((step) =>
        step !== null && step >= first && step <= first + 4 ? [xOf(step)] : [],
      ),
    };
  };
  return {
    before: side(listOf(figures.phraseStartsBefore), -4, 2),
    after: side(listOf(figures.phraseStartsAfter), 0, 50),
  };
}

export interface LinePoint {
  readonly x: number;
  readonly y: number;
}

/** The top notes of a bar's length on both sides, on one scale of pitch. */
export function layTopLine({ figures }: Pick<JoinRow, "figures">): {
  before: LinePoint[];
  after: LinePoint[];
} {
  const [before, after] = [listOf(figures.lineBefore), listOf(figures.lineAfter)];
  const pitches = [...before, ...after].flatMap((midi) => midi ?? []);
  const [low, high] = [Math.min(...pitches), Math.max(...pitches)];
  const yOf = (midi: number) => (high === low ? 12 : 20 - ((midi - low) / (high - low)) * 16);
  const points = (line: readonly (number | null)[], x: number) =>
    line.flatMap((midi, slot) =>
      midi === null ? [] : [{ x: x + (slot * 36) / Math.max(1, line.length - 1), y: yOf(midi) }],
    );
  return { before: points(before, 5), after: points(after, 52) };
}

export interface LoudnessSide {
  /** In pixels from the foot; null where no level is printed. */
  readonly height: number | null;
  /** 1 for a crescendo, −1 for a diminuendo. */
  readonly hairpin: number;
}

/** From ppp to fff, eight levels. */
const [softest, perLevel] = [2, 2.6];

/** How loud both sides are. */
export function layLoudness({ figures }: Pick<JoinRow, "figures">): {
  before: LoudnessSide;
  after: LoudnessSide;
} {
  const side = (name: "Before" | "After"): LoudnessSide => {
    const level = numberOf(figures[`level${name}`]);
    return {
      height: level === null ? null : softest + perLevel * Math.min(7, Math.max(0, level)),
      hairpin: Math.sign(numberOf(figures[`hairpin${name}`]) ?? 0),
    };
  };
  return { before: side("Before"), after: side("After") };
}
