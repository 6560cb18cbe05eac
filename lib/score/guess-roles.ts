import type { PartRole } from "./part";

/** What is known of a part before anyone has said what it is for. */
export interface PartOutline {
  readonly name: string;
  readonly staffCount: number;
  /** MusicXML 4.0 sound id. */
  readonly soundId: string | null;
  /** General MIDI program, from 1. */
  readonly midiProgram: number | null;
  readonly hasLyrics: boolean;
}

/** English, Italian, French, German, Polish and their usual abbreviations. */
const keyboardName =
  /\b(piano(forte)?|pno|pf(te)?|fortepiano|klavier(auszug)?|klav|clavier|cembalo|harpsichord|keyboard|reduction|reduced|riduzione|fortepian)\b/i;
const principalName = /\b(solo|solist|soloist|principale|principal)\b/i;

/** More single-staff parts than this beside each other are an orchestra or a choir, not a duo or a song for two. */
const largestGroupOfSoloists = 2;

function isKeyboard(part: PartOutline): boolean {
  if (part.hasLyrics) return false;
  if (keyboardName.test(part.name)) return true;
  if (part.soundId) return part.soundId.startsWith("keyboard.");
  return part.staffCount >= 2 && (part.midiProgram === null || part.midiProgram <= 8);
}

function findSoloIndex(outlines: readonly PartOutline[], others: readonly number[]): number | null {
  const named = others.filter((index) => principalName.test(outlines[index]?.name ?? ""));
  if (named.length === 1) return named[0] ?? null;
  if (others.length > largestGroupOfSoloists) return null;
  return others.find((index) => outlines[index]?.hasLyrics) ?? others[0] ?? null;
}

/**
 * What each part is probably for, to be corrected by the players: keyboards are the reduction; the part named
 * solo, or the one part beside a keyboard (of two, the one that is sung), is the soloist's; many parts are an
 * orchestra. Lyrics count for more than names, because voice parts are often labelled as an instrument.
 * A keyboard alone is a reduction, any other single part the solo.
 *
 * Source: common practice.
 */
export function guessRoles(parts: readonly PartOutline[]): PartRole[] {
  const others = parts.flatMap((part, index) => (isKeyboard(part) ? [] : [index]));
  const soloIndex = findSoloIndex(parts, others);
  const rest: PartRole = others.length > largestGroupOfSoloists ? "orchestra" : "other";
  return parts.map((_part, index) => {
    if (index === soloIndex) return "solo";
    return others.includes(index) ? rest : "reduction";
  });
}
