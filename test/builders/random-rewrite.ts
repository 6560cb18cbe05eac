import { type PositionTerms, toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Bar } from "@/lib/score/bar";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

const lengths: readonly (readonly [number, number, number])[] = [
  // numerator, denominator, how many in a row
  [4, 1, 1],
  [3, 1, 1],
  [2, 1, 1],
  [3, 2, 1],
  [1, 1, 1],
  [1, 1, 1],
  [3, 4, 1],
  [1, 2, 2],
  [1, 4, 4],
  [1, 8, 2],
  [5, 2, 1],
  [7, 4, 1],
  [1, 3, 3],
  [2, 3, 3],
  [1, 5, 5],
  [1, 6, 6],
  [1, 7, 7],
];

/**
 * A rewrite of one or two bars of a part, whole or from beat to beat: every voice that the part has there is filled with
 * notes, chords, rests and tremolos of all kinds of lengths.
 */
export function randomRewrite(
  random: () => number,
  score: Score,
  part: Part,
  shown: RewriteTerms["shown"],
): RewriteTerms {
  const upTo = (count: number) => Math.floor(random() * count);
  const first = upTo(score.bars.length);
  const last = Math.min(score.bars.length - 1, first + upTo(2));
  const [from, to] = [score.bars[first]!, score.bars[last]!];
  const isFromInside = random() < 0.2 && compareQuarters(from.length, quarters(2)) > 0;
  const isToInside = random() < 0.2 && compareQuarters(to.length, quarters(2)) > 0;
  const start = isFromInside ? quarters(1) : noQuarters;
  const end = isToInside ? quarters(2) : null;
  const events: RewriteEvent[] = [];
  for (const { voice, staff } of voicesIn(part, first, last)) {
    for (const bar of score.bars.slice(first, last + 1)) {
      const begin = bar === from ? start : noQuarters;
      const finish = bar === to && end ? end : bar.length;
      events.push(...fill(random, bar, begin, finish, { voice, staff }));
    }
  }
  return {
    kind: "rewrite",
    sourceHash: "0".repeat(64),
    partId: part.id,
    from: toPositionTerms({ barIndex: first, offset: start }),
    to: end ? toPositionTerms({ barIndex: last, offset: end }) : { barIndex: last + 1, offset: "0" },
    events,
    shown,
    words: "",
  };
}

function voicesIn(part: Part, first: number, last: number): { voice: number; staff: number }[] {
  const found = new Map<number, { voice: number; staff: number }>();
  for (const { barIndex, voice, staff } of [...part.notes, ...part.rests]) {
    const number = Number(voice);
    const isKnown = barIndex >= first && barIndex <= last && number >= 1 && number <= 8;
    if (isKnown && !found.has(number)) found.set(number, { voice: number, staff });
  }
  return found.size > 0 ? [...found.values()] : [{ voice: 1, staff: 1 }];
}

function fill(
  random: () => number,
  bar: Bar,
  from: Quarters,
  to: Quarters,
  where: { voice: number; staff: number },
): RewriteEvent[] {
  const events: RewriteEvent[] = [];
  let at = from;
  while (compareQuarters(at, to) < 0) {
    const left = subtractQuarters(to, at);
    const [num, den, count] = lengths[Math.floor(random() * lengths.length)]!;
    const isFit = compareQuarters(quarters(num * count, den), left) <= 0;
    for (let index = 0; index < (isFit ? count : 1); index += 1) {
      const lasts = isFit ? quarters(num, den) : left;
      events.push(event(random, toPositionTerms({ barIndex: bar.index, offset: at }), lasts, where));
      at = addQuarters(at, lasts);
    }
  }
  return events;
}

function event(
  random: () => number,
  at: PositionTerms,
  lasts: Quarters,
  where: { voice: number; staff: number },
): RewriteEvent {
  const count = random() < 0.2 ? 0 : 1 + Math.floor(random() * 4);
  const pitches = chord(random, count);
  const hasTremolo = count > 0 && random() < 0.15;
  const other = hasTremolo && random() < 0.5 ? chord(random, 1 + Math.floor(random() * 2)) : [];
  return {
    ...where,
    at,
    lasts: writeQuarters(lasts),
    pitches,
    tied: pitches.flatMap((_, index) => (random() < 0.3 ? [index] : [])),
    tremolo: hasTremolo ? { strokes: 3, other } : null,
    isRolled: count > 1 && random() < 0.1,
    isAccented: count > 0 && random() < 0.1,
  };
}

const scale = ["C", "D", "E", "F", "G", "A", "B"] as const;

/** Different steps, from the lowest up; few enough that ties between neighbours happen. */
function chord(random: () => number, count: number): RewritePitch[] {
  const places = new Set(Array.from({ length: count }, () => Math.floor(random() * 8)));
  return [...places]
    .sort((a, b) => a - b)
    .map((place) => ({
      step: scale[place % 7]!,
      alter: random() < 0.3 ? Math.floor(random() * 3) - 1 : 0,
      octave: 4 + Math.floor(place / 7),
    }));
}
