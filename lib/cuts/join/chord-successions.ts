import { allChords, type Chord, type ChordQuality } from "@/lib/harmony/chord-shapes";

/** Kinds that behave alike in succession: few successions in one piece, so that nine qualities would be too many. */
const kinds: Readonly<Record<ChordQuality, number>> = {
  major: 0,
  "major-seventh": 0,
  augmented: 0,
  "dominant-seventh": 1,
  minor: 2,
  "minor-seventh": 2,
  diminished: 3,
  "half-diminished": 3,
  "diminished-seventh": 3,
};
const kindCount = 4;

/** Successions by interval from root to root and by kinds; transposition does not count. */
function successionOf(before: number, after: number): number {
  const [a, b] = [allChords[before] as Chord, allChords[after] as Chord];
  const step = (b.root - a.root + 12) % 12;
  return (step * kindCount + kinds[a.quality]) * kindCount + kinds[b.quality];
}

/** Weight of the guess that everything is as often as by chance. */
const smoothing = 2;

/** Which chords follow which in one piece, from the chords that stand on either side of its bar lines or beats. */
export class ChordSuccessions {
  private readonly seen = new Float64Array(12 * kindCount * kindCount);
  private readonly byChance = new Float64Array(12 * kindCount * kindCount);

  constructor(pairs: readonly { readonly before: number; readonly after: number }[]) {
    const [befores, afters] = [new Float64Array(allChords.length), new Float64Array(allChords.length)];
    let count = 0;
    for (const { before, after } of pairs) {
      if (before < 0 || after < 0) continue;
      const succession = successionOf(before, after);
      this.seen[succession] = (this.seen[succession] as number) + 1;
      befores[before] = (befores[before] as number) + 1;
      afters[after] = (afters[after] as number) + 1;
      count += 1;
    }
    for (const [before, often] of befores.entries()) {
      if (often === 0) continue;
      for (const [after, other] of afters.entries()) {
        if (other === 0) continue;
        const succession = successionOf(before, after);
        this.byChance[succession] = (this.byChance[succession] as number) + (often * other) / count;
      }
    }
  }

  /** How many times the piece makes this succession, on whatever degree. */
  countOf(before: number, after: number): number {
    return before < 0 || after < 0 ? 0 : (this.seen[successionOf(before, after)] as number);
  }

  /**
   * Logarithm of how much more often a succession is made than by chance.
   *
   * @param own the succession that the piece makes at the place before; it is not counted, or a place would speak for
   * itself.
   */
  association(before: number, after: number, own: number): number {
    if (before < 0 || after < 0) return 0;
    const succession = successionOf(before, after);
    const itself = own >= 0 && successionOf(before, own) === succession ? 1 : 0;
    const seen = Math.max(0, (this.seen[succession] as number) - itself);
    return Math.log((seen + smoothing) / ((this.byChance[succession] as number) + smoothing));
  }
}
