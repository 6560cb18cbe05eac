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
 * Source: started from common practice and tuned on every second of the analysed songs that `test/bench/harmony.bench.ts`
 * measures; the others tell how well it does.
 */
export const defaultHearingCosts: HearingCosts = {
  keyFit: { profile: 1000, spelling: 1000, signature: 300, signatureLimit: 3000 },
  chordFit: {
    foreignTone: 3600,
    missingRoot: 800,
    missingThird: 800,
    missingFifth: 300,
    missingSeventh: 800,
    foreignBass: 530,
    inverted: 300,
  },
  functions: {
    tonic: 0,
    dominant: 250,
    leading: 750,
    diatonic: 800,
    "natural-minor": 1200,
    applied: 2000,
    borrowed: 2500,
    foreign: 4000,
    seventh: 130,
    augmented: 1000,
  },
  change: { key: 6000, keyPerFifth: 1000, chord: 2250, chordAtBar: 800, leading: 750 },
};
