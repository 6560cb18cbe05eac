import type { Metre } from "@/lib/score/bar";
import { noQuarters, type Quarters, quarters } from "@/lib/score/quarters";
import { addTime } from "./exact-time";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

const symbols: Readonly<Record<string, Metre["symbol"]>> = {
  common: "common",
  cut: "cut",
  "single-number": "single-number",
  note: "note",
  "dotted-note": "dotted-note",
  normal: "normal",
};

/** Beats and beat types are printed numbers: nobody prints larger ones, or more of them. */
const largest = 1024;
const mostNumbers = 16;

export const senzaMisura: Metre = { groups: [], symbol: null };

/** Reads a `time` element; null when its numbers are none, or are none that can be added up. */
export function readTime(time: XmlElement): Metre | null {
  if (child(time, "senza-misura")) return senzaMisura;
  const groups: { beats: number[]; beatType: number }[] = [];
  let beats: number[] | null = null;
  for (const part of childElements(time)) {
    if (part.name === "beats") beats = readBeats(textOf(part));
    if (part.name !== "beat-type") continue;
    const beatType = readCount(textOf(part));
    if (beats === null || beatType === null) return null;
    groups.push({ beats, beatType });
    beats = null;
  }
  if (groups.length === 0 || groups.length > mostNumbers) return null;
  const { symbol = "" } = time.attributes;
  const metre = { groups, symbol: Object.hasOwn(symbols, symbol) ? (symbols[symbol] ?? null) : null };
  return lengthOfMetre(metre) === null ? null : metre;
}

function readBeats(text: string): number[] | null {
  const counts = text.split("+", mostNumbers + 1).map(readCount);
  return counts.length <= mostNumbers && counts.every((count) => count !== null) ? counts : null;
}

function readCount(text: string): number | null {
  const count = Number(text);
  return Number.isInteger(count) && count >= 1 && count <= largest ? count : null;
}

/** What a bar of the metre lasts; null in senza misura. */
export function lengthOfMetre({ groups }: Metre): Quarters | null {
  if (groups.length === 0) return null;
  return groups.reduce<Quarters | null>((sum, { beats, beatType }) => {
    const count = beats.reduce((total, beat) => total + beat, 0);
    return sum && addTime(sum, quarters(count * 4, beatType));
  }, noQuarters);
}

/** False for a beat type that no note value has, such as 3. */
export function hasUsualBeatTypes({ groups }: Metre): boolean {
  return groups.every(({ beatType }) => (beatType & (beatType - 1)) === 0);
}

export function isSameMetre(a: Metre, b: Metre): boolean {
  return a.symbol === b.symbol && JSON.stringify(a.groups) === JSON.stringify(b.groups);
}
