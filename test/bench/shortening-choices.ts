import { findJoinSigns } from "@/lib/cuts/join/join-signs";
import type { Heard } from "@/lib/cuts/join/listen";
import { likenessAt, type Matches, matchCode } from "@/lib/cuts/join/matches";
import { isEqualQuarters, noQuarters } from "@/lib/score/quarters";
import type { Choice } from "./conditional-logit";

/** A place where the composer, coming back to a passage, leaves out bars of it: from `from` straight on at `to`. */
export interface Shortening {
  readonly from: number;
  readonly to: number;
  /** The bar that begins with the join in the shorter passage. */
  readonly made: number;
}

export const shorteningSigns = ["hypermetre", "phrase", "key", "smoothness", "skip"] as const;

const at = (barIndex: number) => ({ barIndex, offset: noQuarters });

/** Bars of skip that count: shorter ones are variations of a figure. */
const leastSkip = 2;

const has = (matches: Matches, code: number): boolean => likenessAt(matches, code) !== null;

/**
 * Shortenings of a piece: what stands before `made` is what stands before `from`, what follows is what follows `to`, at
 * the same transposition, and neither passage goes on alike past the join. Each pair of bars once.
 */
export function findShortenings(heard: Heard): Shortening[] {
  const likenesses = heard.likenesses.from(noQuarters);
  const bars = heard.score.bars.map(({ index }) => index);
  const found = new Map<string, Shortening>();
  const landings = new Map<number, number[]>();
  for (const to of bars) {
    for (const code of likenesses.after(to).codes) {
      if (has(likenesses.before(to), code)) continue;
      landings.set(code, [...(landings.get(code) ?? []), to]);
    }
  }
  for (const from of bars) {
    for (const code of likenesses.before(from).codes) {
      const made = Math.floor(code / 12);
      if (has(likenesses.after(from), code)) continue;
      for (const to of landings.get(code) ?? []) {
        const isInside = made >= from && made <= to;
        // A bar that is like the landing at pitch would make the place its own precedent.
        if (to - from < leastSkip || isInside || has(likenesses.after(from), matchCode(to, 0))) continue;
        found.set(`${from}-${to}`, { from, to, made });
      }
    }
  }
  return [...found.values()];
}

/** The composer's landing among all later bars of the piece, by signs in which no precedent counts. */
export function shorteningChoice(heard: Heard, { from, to }: Shortening): Choice | null {
  const rows: number[] = [];
  let taken = -1;
  let count = 0;
  for (const bar of heard.score.bars) {
    if (bar.index <= from || !isEqualQuarters(bar.length, bar.metreLength)) continue;
    if (bar.index === to) taken = count;
    const signs = findJoinSigns(heard, { from: at(from), to: at(bar.index) });
    rows.push(signs.hypermetre, signs.phrase, signs.key, signs.smoothness, -Math.log(bar.index - from));
    count += 1;
  }
  return taken < 0 || count < 4 ? null : { rows: Float64Array.from(rows), taken };
}
