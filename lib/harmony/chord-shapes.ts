/** Kinds of chords, told by the intervals above the root in semitones. */
export const chordShapes = {
  major: [0, 4, 7],
  minor: [0, 3, 7],
  diminished: [0, 3, 6],
  augmented: [0, 4, 8],
  "dominant-seventh": [0, 4, 7, 10],
  "minor-seventh": [0, 3, 7, 10],
  "major-seventh": [0, 4, 7, 11],
  "half-diminished": [0, 3, 6, 10],
  "diminished-seventh": [0, 3, 6, 9],
} as const satisfies Record<string, readonly number[]>;

export type ChordQuality = keyof typeof chordShapes;

export const chordQualities = Object.keys(chordShapes) as readonly ChordQuality[];

/** A chord by the pitch class of its root. */
export interface Chord {
  readonly root: number;
  readonly quality: ChordQuality;
}

/** Every chord on every root: a chord's place in this list is its number. */
export const allChords: readonly Chord[] = Array.from({ length: 12 }, (_, root) =>
  chordQualities.map((quality) => ({ root, quality })),
).flat();

export function chordNumber({ root, quality }: Chord): number {
  return root * chordQualities.length + chordQualities.indexOf(quality);
}

/** Pitch classes from the root upward. */
export function tonesOf({ root, quality }: Chord): number[] {
  return chordShapes[quality].map((interval) => (root + interval) % 12);
}

/** Seventh chords have a fourth tone. */
export function isSeventhChord({ quality }: Chord): boolean {
  return chordShapes[quality].length === 4;
}

/** Roots of the major triad or seventh chord a fifth above and of the diminished chords a semitone below. */
function findLeading(chord: Chord): number[] {
  if (chord.quality === "diminished" || chord.quality === "augmented") return [];
  const [fifthAbove, below] = [(chord.root + 7) % 12, (chord.root + 11) % 12];
  return [
    chordNumber({ root: fifthAbove, quality: "dominant-seventh" }),
    chordNumber({ root: fifthAbove, quality: "major" }),
    chordNumber({ root: below, quality: "diminished-seventh" }),
    chordNumber({ root: below, quality: "diminished" }),
  ];
}

/** By number of the chord: numbers of the dominant chords that resolve into it. Source: common practice. */
export const dominantsInto: readonly (readonly number[])[] = allChords.map(findLeading);
