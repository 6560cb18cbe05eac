import { comparePositions } from "@/lib/score/position";
import type { BreathTerms } from "./breath-terms";
import { canonicalJson, type JsonValue } from "./canonical-json";
import type { CueTerms } from "./cue-terms";
import { sharesMusic } from "./pair-cuts";
import { type PositionTerms, toPosition } from "./position-terms";
import type { RemarkTerms } from "./remark-terms";
import type { RewriteTerms } from "./rewrite-terms";

/** A mark in the one and in the other edition; null where the edition has none of it. Never null twice. */
export interface MarkPair<Terms> {
  readonly before: Terms | null;
  readonly after: Terms | null;
}

/** Breaths that are not the same in two editions. One that is gone and one that is new in the same or the next bar have moved. */
export function pairBreaths(a: readonly BreathTerms[], b: readonly BreathTerms[]): MarkPair<BreathTerms>[] {
  return pairMarks(
    a,
    b,
    ({ at }) => at,
    (before, after) => withinABar(barOfBreath(before.at), barOfBreath(after.at)),
  );
}

/** Cues that are not the same: another word at the same place, or the same word in the next bar. */
export function pairCues(a: readonly CueTerms[], b: readonly CueTerms[]): MarkPair<CueTerms>[] {
  return pairMarks(
    a,
    b,
    ({ at }) => at,
    (before, after) => {
      if (isSamePlace(before.at, after.at)) return 0;
      const bars = withinABar(before.at.barIndex, after.at.barIndex);
      return bars !== null && isSame(before.text, after.text) ? 1 + bars : null;
    },
  );
}

/** Rewrites that are not the same: one of the same part that shares bars with the other has changed. */
export function pairRewrites(
  a: readonly RewriteTerms[],
  b: readonly RewriteTerms[],
): MarkPair<RewriteTerms>[] {
  return pairMarks(
    a,
    b,
    ({ from }) => from,
    (before, after) => {
      if (!sharesBars(before, after)) return null;
      return isSamePlace(before.from, after.from) && isSamePlace(before.to, after.to) ? 0 : 1;
    },
  );
}

/** Printed comments that are not the same: reworded by the same author, or signed by another name at the same bars. */
export function pairRemarks(a: readonly RemarkTerms[], b: readonly RemarkTerms[]): MarkPair<RemarkTerms>[] {
  return pairMarks(
    a,
    b,
    ({ from }) => from,
    (before, after) => {
      if (!isSamePlace(before.from, after.from) || !isSamePlace(before.to, after.to)) return null;
      if (isSame(before.by, after.by)) return 0;
      return isSame(before.text, after.text) ? 1 : null;
    },
  );
}

/** Whether two rewrites change some of the same music of the same part. */
export function sharesBars(a: RewriteTerms, b: RewriteTerms): boolean {
  return a.partId === b.partId && sharesMusic(a, b);
}

/** Whether two terms are written alike: text by its letters, not by how they were typed. */
export function isSame(a: JsonValue, b: JsonValue): boolean {
  return canonicalJson(a) === canonicalJson(b);
}

/** By index, the bar that a breath closes or lies in: at a bar line it is the bar before. */
export function barOfBreath({ barIndex, offset }: PositionTerms): number {
  return offset === "0" && barIndex > 0 ? barIndex - 1 : barIndex;
}

/**
 * @param distanceOf how far a mark that is gone is from one that is new; null when the one cannot have become the other.
 * @returns in the order of the page. The nearest are paired first, and each at most once.
 */
function pairMarks<Terms extends JsonValue>(
  a: readonly Terms[],
  b: readonly Terms[],
  placeOf: (terms: Terms) => PositionTerms,
  distanceOf: (before: Terms, after: Terms) => number | null,
): MarkPair<Terms>[] {
  const byPlace = (one: Terms, other: Terms) => comparePlaces(placeOf(one), placeOf(other));
  const gone = without(a, b).toSorted(byPlace);
  const fresh = without(b, a).toSorted(byPlace);
  const near = gone
    .flatMap((before) =>
      fresh.flatMap((after) => {
        const distance = distanceOf(before, after);
        return distance === null ? [] : [{ before, after, distance }];
      }),
    )
    .sort((one, other) => one.distance - other.distance);
  const [befores, afters] = [new Set<Terms>(), new Set<Terms>()];
  const pairs: MarkPair<Terms>[] = [];
  for (const { before, after } of near) {
    if (befores.has(before) || afters.has(after)) continue;
    befores.add(before);
    afters.add(after);
    pairs.push({ before, after });
  }
  pairs.push(...gone.filter((before) => !befores.has(before)).map((before) => ({ before, after: null })));
  pairs.push(...fresh.filter((after) => !afters.has(after)).map((after) => ({ before: null, after })));
  const placeOfPair = ({ before, after }: MarkPair<Terms>) => {
    if (after !== null) return placeOf(after);
    if (before !== null) return placeOf(before);
    throw new RangeError("A pair of marks without a mark");
  };
  return pairs.sort((one, other) => comparePlaces(placeOfPair(one), placeOfPair(other)));
}

/** Each once, without those that `taken` has too. */
function without<Terms extends JsonValue>(list: readonly Terms[], taken: readonly Terms[]): Terms[] {
  const texts = new Set(taken.map((terms) => canonicalJson(terms)));
  return list.filter((terms) => {
    const text = canonicalJson(terms);
    if (texts.has(text)) return false;
    texts.add(text);
    return true;
  });
}

function comparePlaces(a: PositionTerms, b: PositionTerms): number {
  return comparePositions(toPosition(a), toPosition(b));
}

function isSamePlace(a: PositionTerms, b: PositionTerms): boolean {
  return a.barIndex === b.barIndex && a.offset === b.offset;
}

function withinABar(one: number, other: number): number | null {
  const bars = Math.abs(one - other);
  return bars <= 1 ? bars : null;
}
