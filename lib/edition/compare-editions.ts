import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { comparePositions } from "@/lib/score/position";
import { findRunningTime } from "@/lib/score/running-time";
import { sayClock } from "@/lib/score/say-clock";
import type { Score } from "@/lib/score/score";
import { seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";
import { compareTempi } from "./compare-tempi";
import { type CutTerms, toCutSpan } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import type { EditionDifference, PlaceNames } from "./edition-difference";
import { hashTerms } from "./hash-terms";

/**
 * What changed from edition `a` to edition `b`, in the order of the page; empty when they are the same.
 *
 * @param score of the source of `b`.
 * @param map by which the time of each cut is measured.
 * @param names how places are called in the sentences.
 */
export function compareEditions(
  score: Score,
  map: TempoMap,
  a: EditionContent,
  b: EditionContent,
  names: PlaceNames,
): EditionDifference[] {
  if (a.sourceHash !== b.sourceHash) return [sourceChanged];
  return [
    ...compareCuts(score, map, a.cuts, b.cuts, names),
    ...compareTempi(score, a, b, names),
    ...compareParts(score, a, b),
  ];
}

const sourceChanged: EditionDifference = {
  kind: "source-changed",
  sentence: "The music itself is another file, so bars cannot be compared one by one.",
  secondsLonger: seconds(0),
  before: null,
  after: null,
};

function compareCuts(
  score: Score,
  map: TempoMap,
  a: readonly CutTerms[],
  b: readonly CutTerms[],
  names: PlaceNames,
): EditionDifference[] {
  const order = findPerformedOrder(score);
  const time = (cut: CutTerms) => secondsOf(score, order, map, cut);
  const name = (cut: CutTerms) => names.cut(toCutSpan(cut));
  const gone = a.filter((cut) => !isAmong(b, cut));
  const fresh = b.filter((cut) => !isAmong(a, cut));
  const moved = fresh.flatMap((after) => {
    const before = gone.find((cut) => overlaps(cut, after) && isOnlyPair(cut, after, gone, fresh));
    return before ? [{ before, after }] : [];
  });
  const differences = [
    ...moved.map(({ before, after }) => cutMoved(before, after, name, time)),
    ...gone
      .filter((cut) => !moved.some(({ before }) => before === cut))
      .map((cut) => cutRemoved(cut, name, time)),
    ...fresh
      .filter((cut) => !moved.some(({ after }) => after === cut))
      .map((cut) => cutAdded(cut, name, time)),
  ];
  return differences.sort((left, right) => comparePlaces(left, right));
}

type NameOf = (cut: CutTerms) => string;
type TimeOf = (cut: CutTerms) => number;

function cutAdded(after: CutTerms, name: NameOf, time: TimeOf): EditionDifference {
  const saved = time(after);
  const sentence = `Cut added: ${name(after)}, ${sayClock(saved)} shorter.`;
  return { kind: "cut-added", sentence, secondsLonger: seconds(-saved), before: null, after };
}

function cutRemoved(before: CutTerms, name: NameOf, time: TimeOf): EditionDifference {
  const saved = time(before);
  const sentence = `Cut opened: ${name(before)} are played again, ${sayClock(saved)} longer.`;
  return { kind: "cut-removed", sentence, secondsLonger: seconds(saved), before, after: null };
}

function cutMoved(before: CutTerms, after: CutTerms, name: NameOf, time: TimeOf): EditionDifference {
  const longer = time(before) - time(after);
  const sentence = `Cut moved: ${name(before)} became ${name(after)}, ${sayLonger(longer)}.`;
  return { kind: "cut-moved", sentence, secondsLonger: seconds(longer), before, after };
}

/** "0:09 shorter", "0:09 longer" or "as long as before". */
export function sayLonger(longer: number): string {
  if (sayClock(longer) === sayClock(0)) return "as long as before";
  return `${sayClock(Math.abs(longer))} ${longer < 0 ? "shorter" : "longer"}`;
}

function secondsOf(score: Score, order: PerformedOrder, map: TempoMap, cut: CutTerms): number {
  const whole = findRunningTime(score, order, map).seconds;
  return whole - findRunningTime(score, leaveOut(score, order, [toCutSpan(cut)]), map).seconds;
}

function isAmong(cuts: readonly CutTerms[], cut: CutTerms): boolean {
  const hash = hashTerms(cut);
  return cuts.some((other) => hashTerms(other) === hash);
}

function overlaps(a: CutTerms, b: CutTerms): boolean {
  const [one, other] = [toCutSpan(a), toCutSpan(b)];
  return comparePositions(one.from, other.to) < 0 && comparePositions(other.from, one.to) < 0;
}

/** A cut moved only when it is plain which became which: two that became one are removed and added. */
function isOnlyPair(
  before: CutTerms,
  after: CutTerms,
  gone: readonly CutTerms[],
  fresh: readonly CutTerms[],
): boolean {
  return (
    gone.filter((cut) => overlaps(cut, after)).length === 1 &&
    fresh.filter((cut) => overlaps(before, cut)).length === 1
  );
}

function comparePlaces(left: EditionDifference, right: EditionDifference): number {
  const [a, b] = [left.after ?? left.before, right.after ?? right.before];
  return a && b ? comparePositions(toCutSpan(a).from, toCutSpan(b).from) : 0;
}

const roleWords = {
  solo: "the solo part",
  reduction: "the reduction",
  orchestra: "a part of the orchestra",
  other: "left out",
} as const;

function compareParts(score: Score, a: EditionContent, b: EditionContent): EditionDifference[] {
  const ids = [...new Set([...Object.keys(a.partRoles), ...Object.keys(b.partRoles)])];
  return ids.flatMap((id) => {
    const role = b.partRoles[id] ?? "other";
    if ((a.partRoles[id] ?? "other") === role) return [];
    const name = score.parts.find((part) => part.id === id)?.name || `Part ${id}`;
    const sentence = `${name} is ${roleWords[role]} now.`;
    return [
      { kind: "part-changed" as const, sentence, secondsLonger: seconds(0), before: null, after: null },
    ];
  });
}
