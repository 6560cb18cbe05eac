import { rotateMask, slotCount } from "./bar-fingerprint";

/** Two slots of twelve pitch classes in one number. */
const words = slotCount / 2;
const half = words / 2;
const transpositions = 12;

const bitCounts = Uint8Array.from({ length: 4096 }, (_, mask) => {
  let count = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) count += 1;
  return count;
});

const countIn = (word: number): number =>
  (bitCounts[word & 0xfff] as number) + (bitCounts[word >>> 12] as number);

/** One stretch laid out at each of twelve transpositions upward, to be compared with many others. */
export interface RaisedSlots {
  readonly words: Uint32Array;
  readonly weight: number;
  /** Bits in the second half, whatever the transposition. */
  readonly lateWeight: number;
  /** By mask of pitch classes: how many bits lie in these, untransposed. */
  readonly weightIn: Uint8Array;
}

const allMasks = 1 << transpositions;

/** Each mask holds what it holds without its lowest pitch class, and that one. */
function sumByMask(counts: Uint8Array): Uint8Array {
  const sums = new Uint8Array(allMasks);
  for (let mask = 1; mask < allMasks; mask += 1) {
    const lowest = mask & -mask;
    sums[mask] = (sums[mask ^ lowest] as number) + (counts[31 - Math.clz32(lowest)] as number);
  }
  return sums;
}

/** Stretches of sixteen slots of pitch classes, packed so that very many can be compared at all transpositions. */
export class PackedSlots {
  private readonly packed: Uint32Array;
  private readonly weights: Int32Array;
  private readonly lateWeights: Int32Array;
  /** By stretch, by semitones: the pitch classes that sound in it, lowered by so many. */
  private readonly loweredMasks: Uint16Array;

  /** @param stretches sixteen masks each; null for one that is like nothing. */
  constructor(stretches: readonly (Uint16Array | null)[]) {
    this.packed = new Uint32Array(stretches.length * words);
    this.weights = new Int32Array(stretches.length);
    this.lateWeights = new Int32Array(stretches.length);
    this.loweredMasks = new Uint16Array(stretches.length * transpositions);
    for (const [index, slots] of stretches.entries()) if (slots) this.pack(index, slots);
  }

  private pack(index: number, slots: Uint16Array): void {
    const sounding = slots.reduce((all, mask) => all | mask, 0);
    for (let semitones = 0; semitones < transpositions; semitones += 1)
      this.loweredMasks[index * transpositions + semitones] = rotateMask(sounding, (12 - semitones) % 12);
    for (let word = 0; word < words; word += 1) {
      const packed = (slots[2 * word] as number) | ((slots[2 * word + 1] as number) << 12);
      this.packed[index * words + word] = packed;
      this.weights[index] = (this.weights[index] as number) + countIn(packed);
      if (word >= half) this.lateWeights[index] = (this.lateWeights[index] as number) + countIn(packed);
    }
  }

  weightOf(index: number): number {
    return this.weights[index] as number;
  }

  raise(index: number): RaisedSlots {
    const raised = new Uint32Array(transpositions * words);
    const counts = new Uint8Array(transpositions);
    for (let word = 0; word < words; word += 1) {
      const packed = this.packed[index * words + word] as number;
      const [early, late] = [packed & 0xfff, packed >>> 12];
      for (let semitones = 0; semitones < transpositions; semitones += 1) {
        raised[semitones * words + word] = rotateMask(early, semitones) | (rotateMask(late, semitones) << 12);
        counts[semitones] =
          (counts[semitones] as number) + ((early >> semitones) & 1) + ((late >> semitones) & 1);
      }
    }
    return {
      words: raised,
      weight: this.weights[index] as number,
      lateWeight: this.lateWeights[index] as number,
      weightIn: sumByMask(counts),
    };
  }

  /** However well two lie, no more than the lighter one's bits can be shared. */
  canBeAlike(weight: number, other: number, least: number): boolean {
    const weightOfOther = this.weights[other] as number;
    return Math.min(weight, weightOfOther) >= least * Math.max(weight, weightOfOther);
  }

  /**
   * Shared bits over all bits, the first raised by so many semitones, as `barSimilarity` has it, if that is `least` or
   * more; 0 for less, and where both are silent.
   */
  likeness(raised: RaisedSlots, other: number, semitones: number, least: number): number {
    const [start, otherStart] = [semitones * words, other * words];
    const together = raised.weight + (this.weights[other] as number);
    // shared / (all − shared) ≥ least, solved for what is shared.
    const needed = (least * together) / (1 + least) - 1e-9;
    const common = this.loweredMasks[other * transpositions + semitones] as number;
    if ((raised.weightIn[common] as number) < needed) return 0;
    let shared = 0;
    for (let word = 0; word < half; word += 1)
      shared += countIn((raised.words[start + word] as number) & (this.packed[otherStart + word] as number));
    if (shared + Math.min(raised.lateWeight, this.lateWeights[other] as number) < needed) return 0;
    for (let word = half; word < words; word += 1)
      shared += countIn((raised.words[start + word] as number) & (this.packed[otherStart + word] as number));
    return shared < needed || together === 0 ? 0 : shared / (together - shared);
  }
}
