/**
 * Places whose surroundings are like those of one bar, and how like: by bar × 12 + semitones (the bar raised by so
 * much). Laid out flat, because a search compares very many of them.
 */
export interface Matches {
  /** Ascending. */
  readonly codes: Int32Array;
  /** By the same place; 0 to 1. */
  readonly likenesses: Float64Array;
}

export const matchCode = (barIndex: number, semitones: number): number => barIndex * 12 + semitones;

export const noMatches: Matches = { codes: new Int32Array(0), likenesses: new Float64Array(0) };

/** Codes and likenesses as they are found, codes ascending; used for one search after another. */
export class MatchList {
  private codes = new Int32Array(64);
  private likenesses = new Float64Array(64);
  private count = 0;

  add(code: number, likeness: number): void {
    if (this.count === this.codes.length) this.grow();
    this.codes[this.count] = code;
    this.likenesses[this.count] = likeness;
    this.count += 1;
  }

  private grow(): void {
    const [codes, likenesses] = [this.codes, this.likenesses];
    this.codes = new Int32Array(2 * codes.length);
    this.likenesses = new Float64Array(2 * codes.length);
    this.codes.set(codes);
    this.likenesses.set(likenesses);
  }

  /** What was added since the last time. */
  take(): Matches {
    const taken = {
      codes: this.codes.slice(0, this.count),
      likenesses: this.likenesses.slice(0, this.count),
    };
    this.count = 0;
    return taken;
  }
}

/** How like a place is; null where it is not. */
export function likenessAt({ codes, likenesses }: Matches, code: number): number | null {
  let [low, high] = [0, codes.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((codes[middle] as number) < code) low = middle + 1;
    else high = middle;
  }
  return codes[low] === code ? (likenesses[low] as number) : null;
}

/**
 * Calls back for every code that stands in both, ascending.
 *
 * @param shift added to the codes of the first before they are compared.
 */
export function eachShared(
  a: Matches,
  b: Matches,
  shift: number,
  call: (codeInB: number, likenessInA: number, likenessInB: number) => void,
): void {
  let [i, j] = [0, 0];
  while (i < a.codes.length && j < b.codes.length) {
    const difference = (a.codes[i] as number) + shift - (b.codes[j] as number);
    if (difference === 0) call(b.codes[j] as number, a.likenesses[i] as number, b.likenesses[j] as number);
    if (difference <= 0) i += 1;
    if (difference >= 0) j += 1;
  }
}
