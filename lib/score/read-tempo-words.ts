import {
  firstTempoWords,
  littleWords,
  pressingStems,
  pressingWords,
  previousTempoWords,
  relativeTempoWords,
  sameTempoWords,
  slowingStems,
  slowingWords,
  type TempoWord,
  tempoWords,
} from "./tempo-words";

/** What words above the staff ask of the tempo. */
export type TempoMeaning =
  | { readonly kind: "absolute"; readonly word: TempoWord }
  | { readonly kind: "relative"; readonly ratio: number }
  | { readonly kind: "restore"; readonly which: "previous" | "first" }
  | { readonly kind: "same" }
  | { readonly kind: "ramp"; readonly direction: "slower" | "faster" };

/** Longer than any tempo heading; beyond it words are a remark, an editor's note or a text. */
const longestHeading = 80;

/** Lower case, without accents and punctuation: "Sehr mäßig, aber…" becomes "sehr massig aber", "L'istesso" "listesso". */
function plainWords(text: string): string {
  return text
    .toLowerCase()
    .replaceAll("ß", "ss")
    .normalize("NFD")
    .replace(/[\u0300-\u036f'’-]/g, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();
}

const holds = (text: string, words: string): boolean => ` ${text} `.includes(` ${words} `);
const holdsAny = (text: string, list: readonly string[]): boolean => list.some((words) => holds(text, words));

function findRamp(text: string): "slower" | "faster" | null {
  const begins = (stems: readonly string[]) =>
    text.split(" ").some((word) => stems.some((stem) => word.startsWith(stem)));
  if (begins(slowingStems) || holdsAny(text, slowingWords)) return "slower";
  if (begins(pressingStems) || holdsAny(text, pressingWords)) return "faster";
  return null;
}

function findRatio(text: string): number | null {
  const found = relativeTempoWords.find(({ words }) => holdsAny(text, words));
  if (!found) return null;
  return holdsAny(text, littleWords) ? Math.sqrt(found.ratio) : found.ratio;
}

/** The most specific word: "allegro moderato" is neither allegro nor moderato. */
function findAbsolute(text: string): TempoWord | null {
  let best: TempoWord | null = null;
  for (const word of tempoWords) {
    if (holds(text, word.word) && word.word.length > (best?.word.length ?? 0)) best = word;
  }
  return best;
}

/**
 * What the words say about the tempo, Italian, German, French or English; null when they say nothing of it
 * ("dolce", "Ob. solo"). Of several statements the first of these counts: a return to an earlier tempo, a gradual
 * change, a change against the tempo before, a tempo of its own.
 *
 * Source: common practice; the numbers are in tempo-words.ts.
 */
export function readTempoWords(text: string): TempoMeaning | null {
  if (text.length > longestHeading) return null;
  const plain = plainWords(text);
  if (holdsAny(plain, firstTempoWords)) return { kind: "restore", which: "first" };
  if (holdsAny(plain, sameTempoWords)) return { kind: "same" };
  if (holdsAny(plain, previousTempoWords)) return { kind: "restore", which: "previous" };
  const direction = findRamp(plain);
  if (direction) return { kind: "ramp", direction };
  const ratio = findRatio(plain);
  if (ratio !== null) return { kind: "relative", ratio };
  const word = findAbsolute(plain);
  return word ? { kind: "absolute", word } : null;
}
