import { fifthsBetween } from "@/lib/harmony/key";
import type { CutSpan } from "@/lib/score/cut-span";
import { isEqualQuarters } from "@/lib/score/quarters";
import { findPrecedent, type Precedent } from "./find-precedent";
import type { Heard } from "./listen";
import { type Place, phraseBegins } from "./places";

/** What speaks for a join, each from 0 to 1. */
export interface JoinSigns {
  /** The large bars go on counting, or a new one begins. */
  readonly hypermetre: number;
  /** A phrase ends before the cut, and one begins with the landing. */
  readonly phrase: number;
  /** The key stays, and the chords follow each other as chords of the piece do. */
  readonly key: number;
  /** Share of the piece's own places of the same class that are rougher. */
  readonly smoothness: number;
  /** How exactly the piece makes the join itself. */
  readonly precedent: number;
  /** Whether one of two equal statements goes that follow each other note for note: 1 or 0. */
  readonly repeat: number;
}

/** By the groups that are heard, and, because these may be heard wrongly, by the number of bars left out. */
function weighHypermetre(from: Place, to: Place): number {
  const isEven = (from.inLargeBar - to.inLargeBar) % 2 === 0;
  const goesOn = from.inLargeBar === to.inLargeBar;
  const byGroups = goesOn ? 1 : to.inLargeBar === 0 ? 0.5 : isEven ? 0.4 : 0;
  const bars = to.bar - from.bar;
  const byCount = bars % 4 === 0 ? 1 : bars % 2 === 0 ? 0.5 : 0;
  return 0.6 * byGroups + 0.4 * byCount;
}

function weighPhrase(from: Place, to: Place): number {
  return 0.6 * to.phraseStart + 0.3 * from.phraseStart + (from.cadenceBefore ? 0.1 : 0);
}

/** @param byChords how readily the chords follow each other, 0 to 1. */
function weighKey({ keyBefore }: Place, { keyAfter }: Place, byChords: number): number {
  if (!keyBefore || !keyAfter) return 0.5;
  const distance = fifthsBetween(keyBefore, keyAfter);
  const isSame = distance === 0 && keyBefore.mode === keyAfter.mode;
  const byKey = isSame ? 1 : distance === 0 ? 0.6 : distance === 1 ? 0.35 : 0;
  return 0.75 * byKey + 0.25 * byChords;
}

/** The precedent of a join from and to the same place of the metre; null for any other. */
function precedentBetween({ likenesses, repeats }: Heard, from: Place, to: Place): Precedent | null {
  const [a, b] = [from.position, to.position];
  if (!isEqualQuarters(a.offset, b.offset)) return null;
  if (repeats.covers(a, b)) return { kind: "repeat", barIndex: b.barIndex, semitones: 0, likeness: 1 };
  const own = likenesses.from(a.offset);
  return findPrecedent(own.before(a.barIndex), own.after(b.barIndex), a.barIndex, b.barIndex);
}

export function precedentOf(heard: Heard, cut: CutSpan): Precedent | null {
  return precedentBetween(heard, heard.places.at(cut.from), heard.places.at(cut.to));
}

/** Whether a cut leaves out one of two equal statements that follow each other, and nothing new is heard at its join. */
export function isRepeat({ heard, cut }: { readonly heard: Heard; readonly cut: CutSpan }): boolean {
  return heard.repeats.covers(cut.from, cut.to);
}

function weighPrecedent(precedent: Precedent | null): number {
  if (!precedent) return 0;
  // What is alike enough to be found at all has 0.7.
  return 0.4 + 0.6 * Math.min(1, Math.max(0, (precedent.likeness - 0.7) / 0.3));
}

/**
 * Signs with what takes longest to find, the smoothness and how the chords follow each other, taken for perfect: no join
 * of the two places has more.
 */
export function weighAtBest(heard: Heard, from: Place, to: Place): JoinSigns {
  const precedent = precedentBetween(heard, from, to);
  return {
    hypermetre: weighHypermetre(from, to),
    phrase: weighPhrase(from, to),
    key: weighKey(from, to, 1),
    smoothness: 1,
    precedent: weighPrecedent(precedent),
    repeat: precedent?.kind === "repeat" ? 1 : 0,
  };
}

/** The signs at best with what was taken for perfect found. */
export function weighFully(heard: Heard, from: Place, to: Place, atBest: JoinSigns): JoinSigns {
  const { hypermetre, phrase, precedent, repeat } = atBest;
  const own = heard.smoothness.at(to.position.offset);
  const { before } = from;
  const { after } = to;
  let [byChords, smoothness] = [0.5, 0.5];
  if (before && after) {
    const next = from.after?.chord ?? -1;
    const association = own.successions.association(before.chord, after.chord, next);
    byChords = 1 / (1 + Math.exp(-2 * association));
    smoothness = own.shareRougher(own.score(before, after, next), to.phraseStart >= phraseBegins);
  }
  return { hypermetre, phrase, key: weighKey(from, to, byChords), smoothness, precedent, repeat };
}

/** What speaks for going from one place to another. */
function weighPlaces(heard: Heard, from: Place, to: Place): JoinSigns {
  return weighFully(heard, from, to, weighAtBest(heard, from, to));
}

export function findJoinSigns(heard: Heard, { from, to }: CutSpan): JoinSigns {
  return weighPlaces(heard, heard.places.at(from), heard.places.at(to));
}
