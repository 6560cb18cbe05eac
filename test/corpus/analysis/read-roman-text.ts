import type { Key } from "@/lib/harmony/key";

/** One chord of an analysis: from here on until the next. */
export interface AnalysedEvent {
  /** Printed number of the bar. */
  readonly barNumber: number;
  /** From 1, counted in the metre's beats. */
  readonly beat: number;
  readonly key: Key;
  /** Roman numeral as written. */
  readonly figure: string;
}

export interface RomanText {
  readonly events: readonly AnalysedEvent[];
  /** Signature in force from a bar on, as "fast 3/8". */
  readonly signatures: readonly { readonly barNumber: number; readonly text: string }[];
}

type Word =
  | { readonly kind: "beat"; readonly beat: number }
  | { readonly kind: "key"; readonly key: Key }
  | { readonly kind: "figure"; readonly figure: string };

const steps: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };

/** "Bb:" is B flat major, "f#:" F sharp minor. */
function readKey(word: string): Key | null {
  const match = /^([A-Ga-g])([#b]*):$/.exec(word);
  if (!match) return null;
  const [, letter = "", accidentals = ""] = match;
  const shift = [...accidentals].reduce((sum, sign) => sum + (sign === "#" ? 1 : -1), 0);
  const tonic = ((steps[letter.toLowerCase()] ?? 0) + shift + 12) % 12;
  return { tonic, mode: letter === letter.toLowerCase() ? "minor" : "major" };
}

/** "b1.66.5" is half-way through the third third of the beat. */
function readBeat(word: string): number | null {
  const match = /^b(\d+)(?:\.(\d+))?(?:\.(\d+))?$/.exec(word);
  if (!match) return null;
  const thirds: Readonly<Record<string, number>> = { "33": 1 / 3, "66": 2 / 3, "67": 2 / 3 };
  const [, whole = "1", part = "0", within = "0"] = match;
  const share = thirds[part] ?? Number(`0.${part}`);
  return Number(whole) + share + (match[3] ? Number(`0.${within}`) / 3 : 0);
}

function readWords(text: string): Word[] {
  return text.split(/\s+/).flatMap((word): Word[] => {
    const key = readKey(word);
    const beat = readBeat(word);
    if (key) return [{ kind: "key", key }];
    if (beat !== null) return [{ kind: "beat", beat }];
    if (/^(\|\|:?|:\|\|:?|:\||\(.*\)|)$/.test(word)) return [];
    return [{ kind: "figure", figure: word }];
  });
}

/**
 * Reads RomanText, an open format for harmonic analyses as plain text: `m3 g: i b2.5 V6` and copies such as
 * `m5-8 = m1-4`, which repeat what is written there in the key that is in force here. Variants (`m13var1`) are left out.
 */
export function readRomanText(text: string): RomanText {
  const words = new Map<number, Word[]>();
  const signatures: { barNumber: number; text: string }[] = [];
  let last = 0;
  for (const line of text.split("\n")) {
    const signature = /^time signature\s*:\s*(.+)$/i.exec(line.trim());
    if (signature) signatures.push({ barNumber: last === 0 ? 0 : last + 1, text: signature[1] ?? "" });
    const bar = /^m(\d+)\s+(?!=)(.*)$/.exec(line.trim());
    if (bar) {
      last = Number(bar[1]);
      // A bar that is written twice is one that is repeated: its first statement names the key.
      if (!words.has(last)) words.set(last, readWords(bar[2] ?? ""));
    }
    const copy = /^m(\d+)(?:-(\d+))?\s*=\s*m(\d+)(?:-(\d+))?$/.exec(line.trim());
    if (copy) {
      const [from, to, source] = [Number(copy[1]), Number(copy[2] ?? copy[1]), Number(copy[3])];
      for (let number = from; number <= to; number += 1) {
        const copied = words.get(source + number - from);
        if (copied) words.set(number, copied);
      }
      last = to;
    }
  }
  return { events: listEvents(words), signatures };
}

function listEvents(words: ReadonlyMap<number, readonly Word[]>): AnalysedEvent[] {
  let key: Key | null = null;
  const events: AnalysedEvent[] = [];
  for (const [barNumber, list] of [...words].sort(([a], [b]) => a - b)) {
    let beat = 1;
    for (const word of list) {
      if (word.kind === "beat") beat = word.beat;
      else if (word.kind === "key") key = word.key;
      else if (key) events.push({ barNumber, beat, key, figure: word.figure });
    }
  }
  return events;
}
