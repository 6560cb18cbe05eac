/** A major or minor key by the pitch class of its tonic; how the tonic is spelled is told apart from it. */
export interface Key {
  readonly tonic: number;
  readonly mode: "major" | "minor";
}

/** C major to B major, then C minor to B minor: a key's place in this list is its number. */
export const allKeys: readonly Key[] = [...(["major", "minor"] as const)].flatMap((mode) =>
  Array.from({ length: 12 }, (_, tonic) => ({ tonic, mode })),
);

export function keyNumber({ tonic, mode }: Key): number {
  return tonic + (mode === "minor" ? 12 : 0);
}

/** The key with a number in `allKeys`. @throws RangeError if there is none. */
export function keyOf(number: number): Key {
  const key = allKeys[number];
  if (!key) throw new RangeError(`No key has the number ${number}`);
  return key;
}

/** Pitch class of the major key with the same signature. */
export function relativeMajor({ tonic, mode }: Key): number {
  return mode === "major" ? tonic : (tonic + 3) % 12;
}

/** Steps between the signatures of two keys on the circle of fifths, 0 to 6; relative keys have the same. */
export function fifthsBetween(a: Key, b: Key): number {
  const steps = (7 * (relativeMajor(a) - relativeMajor(b) + 12)) % 12;
  return Math.min(steps, 12 - steps);
}
