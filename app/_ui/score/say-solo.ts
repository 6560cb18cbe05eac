const accidentalWords: Readonly<Record<string, string>> = {
  bb: " double flat",
  b: " flat",
  "": "",
  "#": " sharp",
  "##": " double sharp",
};

/**
 * A bar of the solo in words, for those who hear the page: "bar 12: beat 1 F sharp 4, beat 2.5 B flat 4".
 *
 * @param solo as the desk carries it: "1:F#4 2.5:Bb4"; empty when the solo rests.
 */
export function saySoloBar(label: string, solo: string): string {
  if (solo === "") return `bar ${label}: solo rests`;
  const notes = solo.split(" ").map((note) => {
    const match = /^([\d.]+):([A-G])(bb|b|##|#|)(-?\d+)$/.exec(note);
    if (!match) return note;
    const [, beat, step, accidental = "", octave] = match;
    return `beat ${beat} ${step}${accidentalWords[accidental]} ${octave}`;
  });
  return `bar ${label}: ${notes.join(", ")}`;
}
