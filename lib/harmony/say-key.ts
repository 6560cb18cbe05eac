const letters = ["F", "C", "G", "D", "A", "E", "B"];

/** A place on the line of fifths as a note name: 0 is "C", −2 "B♭", 13 "F♯♯". */
export function sayFifths(fifths: number): string {
  const place = fifths + 1;
  const alter = Math.floor(place / 7);
  const letter = letters[place - 7 * alter] ?? "";
  return letter + (alter < 0 ? "♭".repeat(-alter) : "♯".repeat(alter));
}

/** "B♭ major". */
export function sayKey({
  tonicFifths,
  mode,
}: {
  readonly tonicFifths: number;
  readonly mode: string;
}): string {
  return `${sayFifths(tonicFifths)} ${mode}`;
}
