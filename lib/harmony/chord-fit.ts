import { allChords, type Chord, chordShapes } from "./chord-shapes";
import { type HeardFrame, wholeFrame } from "./heard-frame";
import type { ChordFitCosts } from "./hearing-costs";

/** Every chord's tones with the price of lacking each, root first. */
function priceTones({ root, quality }: Chord, costs: ChordFitCosts) {
  const prices = [costs.missingRoot, costs.missingThird, costs.missingFifth, costs.missingSeventh];
  return chordShapes[quality].map((interval, place) => ({
    tone: (root + interval) % 12,
    price: prices[place] as number,
  }));
}

/** A minor third below is three fifths up. */
const thirdBelow = 3;

/** Bits of the pitch classes that are spelled as the upper note of a minor third that sounds: no roots of a stack of them. */
function findUpperThirds({ spellings }: HeardFrame): number {
  const sounding = new Set(spellings);
  return spellings
    .filter((fifths) => sounding.has(fifths + thirdBelow))
    .reduce((mask, fifths) => mask | (1 << ((((7 * fifths) % 12) + 12) % 12)), 0);
}

/** Judges frames by one set of costs; what does not depend on the frame is computed once. */
export class ChordJudge {
  private readonly chords: readonly {
    readonly root: number;
    readonly mask: number;
    /** Every tone of it could be the root, but for the spelling. */
    readonly isSymmetric: boolean;
    readonly tones: readonly { readonly tone: number; readonly price: number }[];
  }[];

  constructor(private readonly costs: ChordFitCosts) {
    this.chords = allChords.map((chord) => {
      const tones = priceTones(chord, costs);
      const mask = tones.reduce((all, { tone }) => all | (1 << tone), 0);
      return { root: chord.root, mask, isSymmetric: chord.quality === "diminished-seventh", tones };
    });
  }

  /** What a frame says against each chord, by its number, in units; nothing in silence. */
  judge(frame: HeardFrame): Int32Array {
    const against = new Int32Array(this.chords.length);
    if (frame.count === 0) return against;
    const all = frame.shares.reduce((sum, share) => sum + share, 0);
    // Damped where many sound at once: a run is no heap of wrong notes.
    const foreign = this.costs.foreignTone / Math.sqrt(Math.max(1, all / wholeFrame)) / wholeFrame;
    const upper = findUpperThirds(frame);
    for (const [index, { root, mask, isSymmetric, tones }] of this.chords.entries()) {
      let [lacking, outside] = [0, all];
      for (const { tone, price } of tones) {
        const share = frame.shares[tone] as number;
        outside -= share;
        // Half of the frame is enough to sound a tone in full.
        if (2 * share < wholeFrame) lacking += price * (wholeFrame - 2 * share);
      }
      const misspelled = isSymmetric && (upper >> root) & 1 ? this.costs.misspelledRoot : 0;
      const bass = this.bassCost(frame.bass, root, mask);
      against[index] = Math.round(lacking / wholeFrame + foreign * outside + bass + misspelled);
    }
    return against;
  }

  private bassCost(bass: number | null, root: number, mask: number): number {
    if (bass === null || bass === root) return 0;
    return (mask >> bass) & 1 ? this.costs.inverted : this.costs.foreignBass;
  }
}
