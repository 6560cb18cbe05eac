import type fc from "fast-check";
import { type Bar, type BarJumps, type KeySignature, type Metre, noJumps } from "@/lib/score/bar";
import { guessRoles } from "@/lib/score/guess-roles";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  scaleQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMark } from "@/lib/score/tempo-mark";
import { makePart, type PlannedPart } from "./arbitrary-part";
import { arbitraryChoices, type Choices } from "./choices";

const metres: readonly Metre[] = [
  { groups: [{ beats: [4], beatType: 4 }], symbol: null },
  { groups: [{ beats: [3], beatType: 4 }], symbol: null },
  { groups: [{ beats: [4], beatType: 4 }], symbol: "common" },
  { groups: [{ beats: [2], beatType: 2 }], symbol: "cut" },
  { groups: [{ beats: [6], beatType: 8 }], symbol: null },
  { groups: [{ beats: [3, 2], beatType: 8 }], symbol: null },
  {
    groups: [
      { beats: [3], beatType: 8 },
      { beats: [2], beatType: 4 },
    ],
    symbol: null,
  },
  { groups: [{ beats: [7], beatType: 16 }], symbol: null },
  { groups: [{ beats: [3], beatType: 4 }], symbol: "single-number" },
  { groups: [], symbol: null },
];

/** Texts that would do harm where a program takes them for anything but text. */
export const awkwardTexts = [
  "Concertino",
  '<script>alert("x")</script>',
  "Ärger & Öl “quoted”",
  "a]]>b &amp; &#60;",
  "協奏曲 𝄞",
  "__proto__",
] as const;

interface PlannedBars {
  readonly bars: Bar[];
  /** Sounding keys that start with a bar. */
  readonly keys: ReadonlyMap<number, KeySignature>;
}

/**
 * Scores as `readScore` makes them: bars that tile the piece, exact times with tuplets of 3, 5 and 7, changing metres,
 * pickups and irregular bars, several parts, staves and voices, transposition, chords, grace notes, ties, signs of all
 * kinds, awkward texts. Small, and smaller still when they shrink.
 */
export const arbitraryScore: fc.Arbitrary<Score> = arbitraryChoices.map(makeScore);

export function makeScore(choices: Choices): Score {
  const { bars, keys } = planBars(choices, 1 + choices.below(5));
  const text = () => (choices.oneIn(2) ? choices.pick(awkwardTexts) : null);
  const head = { title: text(), movement: text(), composer: text() };
  const planned: PlannedPart[] = Array.from({ length: 1 + choices.below(3) }, (_, partIndex) => ({
    partIndex,
    bars,
    keys,
  }));
  const made = planned.map((plan) => makePart(choices, plan));
  const roles = guessRoles(
    made.map((part) => ({ ...part, hasLyrics: part.notes.some(({ lyric }) => lyric !== null) })),
  );
  const parts = made.map((part, index): Part => ({ ...part, role: roles[index] ?? "other" }));
  return { ...head, bars, ...addTempi(choices, bars, parts) };
}

function planBars(choices: Choices, count: number): PlannedBars {
  const bars: Bar[] = [];
  const keys = new Map<number, KeySignature>();
  let metre = choices.pick(metres);
  let key: KeySignature = { fifths: 0, mode: null };
  let start = noQuarters;
  for (let index = 0; index < count; index += 1) {
    if (choices.oneIn(4)) metre = choices.pick(metres);
    if (choices.oneIn(3)) {
      key = choices.oneIn(6)
        ? { fifths: null, mode: null }
        : { fifths: choices.below(7) - 3, mode: choices.pick([null, "major", "minor"]) };
      keys.set(index, key);
    }
    const bar = planBar(choices, index, start, metre, key);
    bars.push(bar);
    start = addQuarters(start, bar.length);
  }
  return { bars, keys };
}

function planBar(choices: Choices, index: number, start: Quarters, metre: Metre, key: KeySignature): Bar {
  const asked = metreLengthOf(metre);
  const length = choices.oneIn(4)
    ? scaleQuarters(asked ?? quarters(3), choices.pick([1, 2, 5, 3]), choices.pick([2, 4]))
    : (asked ?? quarters(5, 2));
  const metreLength = asked ?? length;
  const difference = compareQuarters(length, metreLength);
  const isPickup = difference < 0 && (index === 0 || choices.oneIn(2));
  return {
    id: `b${index}`,
    index,
    label: choices.pick([`${index + 1}`, `${index}`, `X${index}`, "12a"]),
    start,
    length,
    metreLength,
    metre,
    key,
    isPickup,
    isIrregular: difference !== 0 && !isPickup,
    repeats: {
      startsRepeat: choices.oneIn(5),
      endsRepeatAfter: choices.pick([null, null, null, 2, 3]),
      startsEnding: choices.pick([null, null, null, [1], [1, 2]]),
      stopsEnding: choices.pick([null, null, null, [1], [2]]),
    },
    jumps: planJumps(choices),
  };
}

/** In quarters; null in senza misura. */
function metreLengthOf({ groups }: Metre): Quarters | null {
  if (groups.length === 0) return null;
  return groups
    .flatMap(({ beats, beatType }) => beats.map((beat) => quarters(beat * 4, beatType)))
    .reduce(addQuarters, noQuarters);
}

function planJumps(choices: Choices): BarJumps {
  if (!choices.oneIn(4)) return noJumps;
  return {
    segno: choices.pick([null, "segno", "sign 2"]),
    coda: choices.pick([null, "coda"]),
    toCoda: choices.pick([null, "coda"]),
    dalSegno: choices.pick([null, "segno"]),
    daCapo: choices.oneIn(2),
    fine: choices.oneIn(2),
  };
}

/** One tempo at most in a bar, alone or beside words that a part prints. */
function addTempi(
  choices: Choices,
  bars: readonly Bar[],
  parts: readonly Part[],
): Pick<Score, "parts" | "tempoMarks"> {
  const tempoMarks: TempoMark[] = [];
  const withWords = [...parts];
  for (const bar of bars) {
    if (!choices.oneIn(3)) continue;
    const onset = addQuarters(bar.start, scaleQuarters(bar.length, choices.below(2), 2));
    const words = choices.pick([null, "Allegro", "poco rit.", "Tempo I"]);
    const numbers = ["metronome", "sound"] as const;
    const source = words === null ? choices.pick(numbers) : choices.pick(["words", ...numbers] as const);
    const quartersPerMinute = source === "words" ? null : choices.pick([60, 90, 132.5]);
    tempoMarks.push({ barIndex: bar.index, onset, words, quartersPerMinute, source });
    if (words === null) continue;
    const printedIn = choices.below(parts.length);
    const part = withWords[printedIn];
    if (!part) continue;
    const direction = { kind: "words" as const, barIndex: bar.index, onset, staff: 1, text: words };
    const directions = [...part.directions, direction].toSorted(
      (a, b) => a.barIndex - b.barIndex || compareQuarters(a.onset, b.onset),
    );
    withWords[printedIn] = { ...part, directions };
  }
  return { parts: withWords, tempoMarks };
}
