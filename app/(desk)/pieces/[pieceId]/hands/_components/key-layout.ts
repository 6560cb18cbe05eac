/** Black keys by pitch class. */
const black: ReadonlySet<number> = new Set([1, 3, 6, 8, 10]);

/** One key of a drawn keyboard, in widths of a white key from the left edge. */
export interface DrawnKey {
  readonly midi: number;
  readonly isBlack: boolean;
  readonly x: number;
  readonly width: number;
}

/** A black key is a little over half as wide as a white one. */
const blackWidth = 0.58;

/** The keys from one to another, white before black, so that the black ones lie on top. */
export function layKeys(
  from: number,
  to: number,
): { readonly keys: readonly DrawnKey[]; readonly width: number } {
  const keys: DrawnKey[] = [];
  let white = 0;
  for (let midi = from; midi <= to; midi += 1) {
    const isBlack = black.has(((midi % 12) + 12) % 12);
    keys.push(
      isBlack
        ? { midi, isBlack, x: white - blackWidth / 2, width: blackWidth }
        : { midi, isBlack, x: white, width: 1 },
    );
    if (!isBlack) white += 1;
  }
  return {
    keys: keys.sort((a, b) => Number(a.isBlack) - Number(b.isBlack) || a.midi - b.midi),
    width: white,
  };
}

const names = ["C", "C sharp", "D", "E flat", "E", "F", "F sharp", "G", "A flat", "A", "B flat", "B"];

/** "E flat 4": a key as it is read out; 60 is "C 4". */
export function sayKey(midi: number): string {
  return `${names[((midi % 12) + 12) % 12]} ${Math.floor(midi / 12) - 1}`;
}
