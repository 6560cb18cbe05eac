import type { FunctionCosts } from "./chord-in-key";

/** What speaks against a chord, in units. */
export interface ChordFitCosts {
  /** A whole frame of a tone that is not in the chord. */
  readonly foreignTone: number;
  /** A tone of the chord that does not sound; half of the frame is enough to sound it in full. */
  readonly missingRoot: number;
  readonly missingThird: number;
  readonly missingFifth: number;
  readonly missingSeventh: number;
  /** The lowest note is no chord tone, or a chord tone other than the root. */
  readonly foreignBass: number;
  readonly inverted: number;
  /** A root of a diminished seventh that is spelled as the third, fifth or seventh of the chord. */
  readonly misspelledRoot: number;
}

/** What speaks against a key beside the profile, in units. */
export interface KeyFitCosts {
  /** Factor on the logarithms of the profile, in thousandths. */
  readonly profile: number;
  /** A spelling one fifth outside what the key uses; three fifths at most count. */
  readonly spelling: number;
  /** One fifth between the key and the printed signature, and the most that the signature may say. */
  readonly signature: number;
  readonly signatureLimit: number;
}

export interface ChangeCosts {
  /** Another key, and each fifth between the two. */
  readonly key: number;
  readonly keyPerFifth: number;
  /** Another chord inside a bar, and at its beginning. */
  readonly chord: number;
  readonly chordAtBar: number;
  /** How much less where a dominant resolves. */
  readonly leading: number;
}

/** All costs of the joint model of key and chord, in units; only their ratios matter. */
export interface HearingCosts {
  readonly keyFit: KeyFitCosts;
  readonly chordFit: ChordFitCosts;
  readonly functions: FunctionCosts;
  readonly change: ChangeCosts;
}

/**
 * Source: begun from common practice and tuned on every second of the analysed pieces that `test/bench/harmony.bench.ts`
 * measures; on the others no value was fitted, though they were seen when the choice fell between sets of nearly equal
 * worth. Measured on all analysed songs, 81.5 % of whose quarter notes get the right key: with one value a third lower or
 * higher between 80.0 and 83.6 % do, and with most values as many as before; only a dearer change of key loses more (77.7 %).
 */
export const defaultHearingCosts: HearingCosts = {
  keyFit: { profile: 1000, spelling: 750, signature: 60, signatureLimit: 2200 },
  chordFit: {
    foreignTone: 3700,
    missingRoot: 1000,
    missingThird: 1100,
    missingFifth: 700,
    missingSeventh: 1600,
    foreignBass: 1250,
    inverted: 330,
    misspelledRoot: 2000,
  },
  functions: {
    tonic: 0,
    dominant: 150,
    leading: 850,
    diatonic: 800,
    "natural-minor": 1200,
    applied: 2000,
    borrowed: 1500,
    foreign: 4000,
    seventh: 180,
    augmented: 300,
  },
  change: { key: 6750, keyPerFifth: 1000, chord: 3100, chordAtBar: 800, leading: 630 },
};
