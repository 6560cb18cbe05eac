import type { HandsProfile, Reach } from "@/lib/hands/hands-profile";

/** The smallest and the widest reach that can be chosen, in semitones: from an octave's neighbour to two octaves. */
export const reaches = { least: 10, most: 21 };

/** Intervals a pianist names; the schema of hands lets through wider and narrower ones, and those stay as they are. */
export function reachesToChoose(chosen: number): number[] {
  const usual = Array.from({ length: reaches.most - reaches.least + 1 }, (_, index) => reaches.least + index);
  return usual.includes(chosen) ? usual : [...usual, chosen].sort((a, b) => a - b);
}

/** A reach of which one side was chosen: the other gives way, so that ease is never wider than what is possible. */
export function withReach(reach: Reach, change: Partial<Reach>): Reach {
  if (change.comfortable !== undefined) {
    const { comfortable } = change;
    return { comfortable, possible: Math.max(comfortable, reach.possible) };
  }
  const possible = change.possible ?? reach.possible;
  return { comfortable: Math.min(possible, reach.comfortable), possible };
}

/** How leaps go, against the usual: what `HandsProfile.leaps` is in words. */
export const leapWords: readonly { readonly factor: number; readonly words: string }[] = [
  { factor: 0.7, words: "very quick" },
  { factor: 0.85, words: "quick" },
  { factor: 1, words: "usual" },
  { factor: 1.2, words: "with some care" },
  { factor: 1.5, words: "slow" },
];

export function sayLeaps(factor: number): string {
  const nearest = leapWords.reduce((best, one) =>
    Math.abs(one.factor - factor) < Math.abs(best.factor - factor) ? one : best,
  );
  return nearest.words;
}

/** What is asked of repetition, with the steps in which it is asked. */
export const rates: readonly {
  readonly name: "repeatedNotes" | "repeatedChords" | "octavesInARow" | "runs";
  readonly label: string;
  readonly step: number;
  readonly least: number;
  readonly most: number;
}[] = [
  { name: "repeatedNotes", label: "The same key again", step: 0.5, least: 2, most: 14 },
  { name: "repeatedChords", label: "The same chord or octave again", step: 0.5, least: 1, most: 12 },
  { name: "octavesInARow", label: "Octaves and chords that move", step: 0.5, least: 1, most: 12 },
  { name: "runs", label: "Notes of a run", step: 1, least: 3, most: 20 },
];

/** The same hands with another figure for one thing that is repeated. */
export const withRate = (
  profile: HandsProfile,
  name: (typeof rates)[number]["name"],
  perSecond: number,
): HandsProfile => ({ ...profile, [name]: perSecond });
