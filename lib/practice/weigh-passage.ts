import { findParallels } from "@/lib/harmony/find-parallels";
import { findReductionParts, findSoloPart } from "@/lib/score/find-part";
import { groupByBar } from "@/lib/score/group-by-bar";
import type { Note } from "@/lib/score/note";
import type { PerformedOrder } from "@/lib/score/performed-order";
import { midiNumber } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, compareQuarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import { sayBarCount } from "@/lib/score/say-bar-count";
import type { Score } from "@/lib/score/score";
import type { PassageBars, PassageWeight, WeightReason } from "./practice-passage";
import { multiplyRatios, type Ratio, ratio } from "./ratio";

/** Each return adds a quarter when it is note for note, an eighth when it is nearly so; beyond four nothing more. Ours. */
const [literalReturn, nearReturn] = [ratio(1, 4), ratio(1, 8)];
const mostReturns = 4;
/** From this similarity of bar fingerprints on a bar comes again nearly. Ours. */
const leastSimilarity = 0.8;
/** What half of a passage, or one bar of it, played alone is worth. Ours. */
const exposure = { mostly: ratio(3, 2), partly: ratio(5, 4) };
/** Bars from which a passage is long, and what that is worth. Ours. */
const lengths: readonly { readonly bars: number; readonly factor: Ratio }[] = [
  { bars: 8, factor: ratio(3, 2) },
  { bars: 4, factor: ratio(5, 4) },
];
/** What is heard last is remembered: the last tenth of the piece, from 8 to 24 bars, for a page of a reduction. Ours. */
const lastPage = { share: 10, fewest: 8, most: 24, factor: ratio(5, 4) };

/** What there is to know of a piece before its passages can be weighed. Worked out once for a piece. */
export interface Dependence {
  readonly score: Score;
  readonly order: PerformedOrder;
  /** By bar: the other bars whose notes are the same for the pianist. */
  readonly same: readonly ReadonlySet<number>[];
  /** By bar: the other bars that are nearly the same, at this pitch or another. */
  readonly near: readonly ReadonlySet<number>[];
  /** By bar: the pianist plays and the soloist is silent. */
  readonly isAlone: readonly boolean[];
}

/**
 * How much the piece depends on a passage: how often its bars come again, literally or nearly, whether the piano is alone
 * in them, how long it is, and whether it lies on the last page. The factors multiply; each is told with its reason.
 */
export function weighPassage(dependence: Dependence, passage: PassageBars): PassageWeight {
  const reasons = [
    findReturns(dependence, passage),
    findExposure(dependence, passage),
    findLength(passage),
    findLastPage(dependence.score, passage),
  ].filter((reason) => reason !== null);
  return { reasons, factor: reasons.reduce((all, { factor }) => multiplyRatios(all, factor), ratio(1)) };
}

/** Looks for all that comes again in the pianist's part, and for where it is alone. */
export function readDependence(score: Score, order: PerformedOrder): Dependence {
  const reduction = findReductionParts(score);
  const notes = groupByBar(reduction.flatMap((part) => part.notes).filter(isPlayed));
  const alone = soundingBars(score, findSoloPart(score)?.notes ?? []);
  return {
    ...{ score, order },
    same: findSameBars(score, notes),
    near: findNearBars(
      score,
      reduction.map(({ id }) => id),
    ),
    isAlone: score.bars.map(({ index }) => notes.has(index) && !alone.has(index)),
  };
}

/** Bars in which something is held or struck. */
function soundingBars(score: Score, notes: readonly Note[]): ReadonlySet<number> {
  const sounding = new Set<number>();
  for (const note of notes.filter(isPlayed)) {
    const end = addQuarters(note.onset, note.duration);
    for (let bar = score.bars[note.barIndex]; bar && compareQuarters(bar.start, end) < 0; ) {
      sounding.add(bar.index);
      bar = score.bars[bar.index + 1];
    }
  }
  return sounding;
}

function findSameBars(score: Score, notes: ReadonlyMap<number, readonly Note[]>): ReadonlySet<number>[] {
  const byNotes = new Map<string, number[]>();
  const keys = score.bars.map(({ index, start }) => {
    const written = (notes.get(index) ?? []).map((note) => {
      const pitch = note.sounding ? midiNumber(note.sounding) : "x";
      const offset = writeQuarters(subtractQuarters(note.onset, start));
      return `${offset} ${writeQuarters(note.duration)} ${pitch} ${note.staff} ${note.tremolo?.marks ?? ""}`;
    });
    return written.length === 0 ? null : written.sort().join(";");
  });
  for (const [bar, key] of keys.entries())
    if (key !== null) byNotes.set(key, [...(byNotes.get(key) ?? []), bar]);
  return keys.map((key, bar) => new Set((byNotes.get(key ?? "") ?? []).filter((other) => other !== bar)));
}

function findNearBars(score: Score, partIds: readonly string[]): ReadonlySet<number>[] {
  const near = score.bars.map(() => new Set<number>());
  if (partIds.length === 0) return near;
  for (const { first, second } of findParallels(score, { partIds, leastBars: 1, leastSimilarity })) {
    for (let bar = first.from; bar < first.to; bar += 1) {
      const other = second.from + bar - first.from;
      near[bar]?.add(other);
      near[other]?.add(bar);
    }
  }
  return near;
}

/** Other places at which at least half of a passage comes again, and repeats that are played. */
function findReturns(dependence: Dependence, passage: PassageBars): WeightReason | null {
  const { score, order, same, near } = dependence;
  const places: { fromBar: number; toBar: number; isLiteral: boolean }[] = [];
  for (let shift = -passage.fromBar; shift + passage.toBar < score.bars.length; shift += 1) {
    const isApart = Math.abs(shift) > passage.toBar - passage.fromBar;
    const [literal, nearly] = isApart ? [same, near].map((bars) => sharedBars(bars, passage, shift)) : [];
    const count = passage.toBar - passage.fromBar + 1;
    const isLiteral = literal !== undefined && literal.length * 2 >= count;
    const found = isLiteral ? literal : nearly;
    if (!found || found.length * 2 < count) continue;
    const place = { fromBar: Math.min(...found), toBar: Math.max(...found), isLiteral };
    // Places that run into one another are one return.
    const before = places.findIndex((other) => other.toBar >= place.fromBar);
    if (before < 0) places.push(place);
    else if (isLiteral && !places[before]?.isLiteral) places[before] = place;
  }
  const passes = order.bars.filter(({ barIndex }) => barIndex === passage.fromBar).length - 1;
  return sayReturns(score, places, Math.max(0, passes));
}

function sharedBars(
  alike: readonly ReadonlySet<number>[],
  { fromBar, toBar }: PassageBars,
  shift: number,
): number[] {
  const found: number[] = [];
  for (let bar = fromBar; bar <= toBar; bar += 1) if (alike[bar]?.has(bar + shift)) found.push(bar + shift);
  return found;
}

function sayReturns(
  score: Score,
  places: readonly (PassageBars & { isLiteral: boolean })[],
  passes: number,
): WeightReason | null {
  const ordered = places.toSorted((a, b) => Number(b.isLiteral) - Number(a.isLiteral));
  const literal = ordered.filter(({ isLiteral }) => isLiteral);
  const near = ordered.filter(({ isLiteral }) => !isLiteral);
  if (literal.length + near.length + passes === 0) return null;
  const counted = Math.min(mostReturns, literal.length + passes);
  const nearCounted = Math.min(mostReturns - counted, near.length);
  const most = literalReturn.den * nearReturn.den;
  const added =
    counted * literalReturn.num * nearReturn.den + nearCounted * nearReturn.num * literalReturn.den;
  const words = [
    passes > 0 ? "is repeated" : null,
    literal.length > 0 ? `comes again note for note in ${sayPlaces(score, literal)}` : null,
    near.length > 0 ? `comes again nearly in ${sayPlaces(score, near)}` : null,
  ].filter((part) => part !== null);
  return { kind: "comes again", factor: ratio(most + added, most), words: `it ${words.join(", ")}` };
}

function sayPlaces(score: Score, places: readonly PassageBars[]): string {
  const shown = places.slice(0, mostReturns).map((place) => nameBars(score, place));
  const more = places.length - shown.length;
  return [...shown, ...(more > 0 ? [`${more} more places`] : [])].join(", ");
}

function findExposure({ isAlone }: Dependence, { fromBar, toBar }: PassageBars): WeightReason | null {
  const count = toBar - fromBar + 1;
  const alone = isAlone.slice(fromBar, toBar + 1).filter(Boolean).length;
  if (alone === 0) return null;
  const isMostly = alone * 2 >= count;
  const where = alone === count ? "throughout" : `in ${alone} of its ${sayBarCount(count)}`;
  return {
    kind: "exposed",
    factor: isMostly ? exposure.mostly : exposure.partly,
    words: `the piano is alone ${where}`,
  };
}

function findLength({ fromBar, toBar }: PassageBars): WeightReason | null {
  const count = toBar - fromBar + 1;
  const long = lengths.find(({ bars }) => count >= bars);
  return long ? { kind: "long", factor: long.factor, words: `it is ${sayBarCount(count)} long` } : null;
}

function findLastPage({ bars }: Score, { toBar }: PassageBars): WeightReason | null {
  const { share, fewest, most, factor } = lastPage;
  const count = Math.min(most, Math.max(fewest, Math.floor(bars.length / share)));
  // A short piece has no last page of its own.
  if (bars.length < 2 * fewest || toBar < bars.length - count) return null;
  return { kind: "last page", factor, words: `it is among the last ${sayBarCount(count)}` };
}

/** "bar 85", "bars 85–96", by printed numbers. */
export function nameBars({ bars }: Score, { fromBar, toBar }: PassageBars): string {
  const label = (index: number) => bars[index]?.label ?? "";
  return fromBar === toBar ? `bar ${label(fromBar)}` : `bars ${label(fromBar)}–${label(toBar)}`;
}
