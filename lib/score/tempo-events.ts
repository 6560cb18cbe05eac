import { onsetOf } from "./onset-of";
import { pieceLength } from "./piece-length";
import type { Position } from "./position";
import { positionAt } from "./position-at";
import { compareQuarters, noQuarters, type Quarters, writeQuarters } from "./quarters";
import { readTempoWords, type TempoMeaning } from "./read-tempo-words";
import type { Score } from "./score";
import type { TempoMark } from "./tempo-mark";

/** Everything that the page and the duo say about the tempo at one place. */
export interface TempoEvent {
  readonly onset: Quarters;
  readonly position: Position;
  /** The duo's own tempo. */
  readonly own: number | null;
  readonly printed: number | null;
  /** What the words mean that set a tempo, and as printed. */
  readonly words: { readonly text: string; readonly meaning: Exclude<TempoMeaning, { kind: "ramp" }> } | null;
  readonly ramp: { readonly text: string; readonly direction: "slower" | "faster" } | null;
}

type Saying =
  | { readonly kind: "own" | "metronome" | "sound"; readonly quartersPerMinute: number }
  | { readonly kind: "words"; readonly text: string; readonly meaning: TempoMeaning };

interface Said {
  readonly onset: Quarters;
  readonly saying: Saying;
}

/** A heading begins with a capital; a small "grave" or "(bewegt)" inside a piece is an expression. Source: common practice. */
function isExpression(onset: Quarters, text: string): boolean {
  const first = /\p{L}/u.exec(text)?.[0] ?? "";
  return onset.num > 0 && first !== first.toUpperCase();
}

function sayWords(onset: Quarters, text: string | null): Said[] {
  const meaning = text === null ? null : readTempoWords(text);
  if (text === null || meaning === null) return [];
  if (meaning.kind === "absolute" && isExpression(onset, text)) return [];
  return [{ onset, saying: { kind: "words", text: text.replace(/\s+/g, " ").trim(), meaning } }];
}

function sayMark({ onset, words, quartersPerMinute, source }: TempoMark): Said[] {
  const said = sayWords(onset, words);
  // A tempo of 0 or below is a slip of the encoder: the words beside it still count.
  if (quartersPerMinute === null || !(quartersPerMinute > 0) || !Number.isFinite(quartersPerMinute))
    return said;
  return [
    { onset, saying: { kind: source === "metronome" ? "metronome" : "sound", quartersPerMinute } },
    ...said,
  ];
}

function sayDirections(score: Score): Said[] {
  return score.parts.flatMap((part) =>
    part.directions.flatMap((direction) =>
      direction.kind === "words" ? sayWords(direction.onset, direction.text) : [],
    ),
  );
}

/** Setting words before each other: a tempo of its own, a return, a change, the same again. */
const weight: Readonly<Record<Exclude<TempoMeaning["kind"], "ramp">, number>> = {
  absolute: 0,
  restore: 1,
  relative: 2,
  same: 3,
};

function joinSayings(score: Score, onset: Quarters, sayings: readonly Saying[]): TempoEvent {
  const number = (kind: "own" | "metronome" | "sound") =>
    sayings.flatMap((saying) => (saying.kind === kind ? [saying.quartersPerMinute] : []))[0] ?? null;
  const words = sayings
    .flatMap(({ ...saying }) =>
      saying.kind === "words" && saying.meaning.kind !== "ramp"
        ? [{ text: saying.text, meaning: saying.meaning }]
        : [],
    )
    .toSorted((a, b) => weight[a.meaning.kind] - weight[b.meaning.kind])[0];
  const ramp = sayings.flatMap((saying) =>
    saying.kind === "words" && saying.meaning.kind === "ramp"
      ? [{ text: saying.text, direction: saying.meaning.direction }]
      : [],
  )[0];
  return {
    onset,
    position: positionAt(score, onset),
    own: number("own"),
    printed: number("metronome") ?? number("sound"),
    words: words ?? null,
    ramp: ramp ?? null,
  };
}

/**
 * The places where anything is said about the tempo, in written order, one event each, from all parts.
 *
 * @throws RangeError if an own tempo lies outside the piece.
 */
export function findTempoEvents(
  score: Score,
  own: readonly { readonly at: Position; readonly quartersPerMinute: number }[],
): TempoEvent[] {
  const said: Said[] = [
    ...own.map(({ at, quartersPerMinute }): Said => {
      return { onset: onsetOf(score, at), saying: { kind: "own", quartersPerMinute } };
    }),
    ...score.tempoMarks.flatMap(sayMark),
    ...sayDirections(score),
  ];
  const end = pieceLength(score);
  const byOnset = new Map<string, { onset: Quarters; sayings: Saying[] }>();
  for (const { onset, saying } of said) {
    // A slip of the encoder can put a direction behind the last bar: it has nothing to say to any note.
    if (compareQuarters(onset, noQuarters) < 0 || compareQuarters(onset, end) > 0) continue;
    const place = byOnset.get(writeQuarters(onset));
    if (place) place.sayings.push(saying);
    else byOnset.set(writeQuarters(onset), { onset, sayings: [saying] });
  }
  return [...byOnset.values()]
    .toSorted((a, b) => compareQuarters(a.onset, b.onset))
    .map(({ onset, sayings }) => joinSayings(score, onset, sayings));
}
