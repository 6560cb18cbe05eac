import type { InstrumentId } from "./instruments";

/** A position: printed bar number and quarter notes from the start of that bar. */
export interface PlantedPosition {
  readonly bar: string;
  readonly quarter: number;
}

/** Bars by printed number, both included. */
export interface PlantedBars {
  readonly from: string;
  readonly to: string;
}

/** A span in which the soloist is silent: from the end of the last solo note to the start of the next. */
export interface PlantedTutti {
  readonly name: "opening" | "first short" | "central" | "second short" | "third short";
  readonly from: PlantedPosition;
  readonly to: PlantedPosition;
  readonly quarters: number;
  readonly isLong: boolean;
}

/** A place in the reduction that does not lie well under two hands. */
export interface UnpianisticPlace {
  readonly kind: "repeated chords" | "stretch" | "leaps";
  readonly bars: PlantedBars;
  readonly hand: "right" | "left";
  /** Repeated chords: strokes per second at the printed tempo. Stretch and leaps: widest interval in semitones. */
  readonly measure: number;
  readonly reason: string;
}

/** A line of the full score that the reduction leaves out. */
export interface MissingLine {
  readonly instrument: InstrumentId;
  readonly bars: PlantedBars;
  readonly reason: string;
}

/** A cut from one position to another; nothing between them is played. */
export interface PlantedCut {
  readonly from: PlantedPosition;
  readonly to: PlantedPosition;
  readonly quarters: number;
  readonly reason: string;
}

/** A cut that looks right and is not. */
export interface CutTrap extends PlantedCut {
  readonly kind: "wrong key" | "broken tie" | "lost lead-in" | "stolen rest" | "lost beat";
}

const at = (bar: string, quarter = 0): PlantedPosition => ({ bar, quarter });

/** The five spans without the soloist; every other rest of the soloist is shorter than a bar. */
export const TUTTIS: readonly PlantedTutti[] = [
  { name: "opening", from: at("0"), to: at("28", 2), quarters: 111, isLong: true },
  { name: "first short", from: at("44", 1), to: at("50", 3), quarters: 26, isLong: false },
  { name: "central", from: at("96", 1), to: at("119", 3), quarters: 94, isLong: true },
  { name: "second short", from: at("144", 1), to: at("148"), quarters: 15, isLong: false },
  { name: "third short", from: at("172", 3), to: at("178"), quarters: 21, isLong: false },
];

export const UNPIANISTIC_PLACES: readonly UnpianisticPlace[] = [
  {
    kind: "repeated chords",
    bars: { from: "112", to: "115" },
    hand: "right",
    measure: 8.4,
    reason:
      "Measured tremolo of the violins taken over as octaves with an inner note, sixteenth for sixteenth.",
  },
  {
    kind: "repeated chords",
    bars: { from: "206", to: "209" },
    hand: "right",
    measure: 9.2,
    reason: "The same at the faster tempo of the coda, with the theme in the solo part above it.",
  },
  {
    kind: "stretch",
    bars: { from: "128", to: "131" },
    hand: "left",
    measure: 20,
    reason: "Double basses and tenor voice in one hand: struck chords of an eleventh to a thirteenth.",
  },
  {
    kind: "leaps",
    bars: { from: "198", to: "201" },
    hand: "left",
    measure: 32,
    reason: "From the double basses' own octave into chords in the tenor and back, eighth by eighth.",
  },
];

export const MISSING_LINES: readonly MissingLine[] = [
  {
    instrument: "hn",
    bars: { from: "120", to: "127" },
    reason: "The first horn sings against the soloist; the piano keeps bass and broken chords only.",
  },
  {
    instrument: "vc",
    bars: { from: "128", to: "135" },
    reason: "The violoncellos answer with the counter-song; the piano's left hand is busy with the bass.",
  },
];

/**
 * Bars 15–16 repeat the cadence of bars 7–8, and bars 9 and 17 begin the same phrase in D minor, first quietly, then
 * by everybody: going from bar 8 to bar 17 is the join that the music makes itself from bar 16 to bar 17. Eight bars
 * are left out, so that the four-bar groups go on.
 */
export const GOOD_CUT: PlantedCut = {
  from: at("9"),
  to: at("17"),
  quarters: 32,
  reason: "The answer is played twice; leaving out the first time joins as bars 16 and 17 join.",
};

export const CUT_TRAPS: readonly CutTrap[] = [
  {
    kind: "wrong key",
    from: at("97"),
    to: at("105"),
    quarters: 32,
    reason:
      "Bars 96 and 104 have the same theme in the same rhythm, but 96 is in F major and 104 in G minor.",
  },
  {
    kind: "broken tie",
    from: at("104"),
    to: at("110"),
    quarters: 24,
    reason: "The suspension at the start of bar 110 is tied over from bar 109, which the cut leaves out.",
  },
  {
    kind: "lost lead-in",
    from: at("17"),
    to: at("29"),
    quarters: 48,
    reason:
      "The soloist's upbeat in the second half of bar 28 is left out, and with it the chord that leads there.",
  },
  {
    kind: "stolen rest",
    from: at("97"),
    to: at("119"),
    quarters: 88,
    reason: "F joins to the dominant of B flat well enough, but of 94 quarters of rest only 6 remain.",
  },
  {
    kind: "lost beat",
    from: at("8", 3),
    to: at("17"),
    quarters: 33,
    reason: "Starts one beat before the barline: bar 8 comes out with three beats.",
  },
];
