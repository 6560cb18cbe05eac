import type { BarJumps } from "@/lib/score/bar";

/** Source: common practice; Italian, with the English "to coda" and the signs of the music symbol block of Unicode. */
const patterns: readonly (readonly [keyof BarJumps, RegExp])[] = [
  ["daCapo", /\bD\.?\s?C\b\.?|\bda\s+capo\b/i],
  ["dalSegno", /\bD\.?\s?S\b\.?|\bdal\s+segno\b|\bdal?\s*\u{1d10b}/iu],
  ["toCoda", /^\W*(to|al|alla)\s+(the\s+)?(coda\b|\u{1d10c})/iu],
  ["fine", /^\W*fine\W*$/i],
  ["segno", /^\s*\u{1d10b}\s*$/u],
  ["coda", /^\W*(\u{1d10c}\s*)?coda\W*$|^\s*\u{1d10c}\s*$/iu],
];

/** The first thing that the words say; null when they are about something else. */
export function readJumpWords(text: string): keyof BarJumps | null {
  // Longer words are a sentence that happens to hold such a word.
  if (text.length > 40) return null;
  return patterns.find(([, pattern]) => pattern.test(text))?.[0] ?? null;
}
