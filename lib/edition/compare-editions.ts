import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { findRunningTime } from "@/lib/score/running-time";
import { sayClock } from "@/lib/score/say-clock";
import type { Score } from "@/lib/score/score";
import { seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";
import { compareTempi } from "./compare-tempi";
import { type CutTerms, toCutSpan } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import type { EditionDifference, PlaceNames } from "./edition-difference";
import { findMarkChanges } from "./find-changes";
import { type CutPair, pairCuts } from "./pair-cuts";
import { sayCutChange } from "./say-cut-change";
import { sayMarkChange } from "./say-mark-change";

/**
 * What changed from edition `a` to edition `b`: cuts, breaths, cues, rewrites, printed comments, tempi and parts, each in
 * the order of the page. Empty when they decide the same; as what they were frozen is no difference.
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
    ...compareMarks(a, b, names),
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
  mark: null,
};

function compareMarks(a: EditionContent, b: EditionContent, names: PlaceNames): EditionDifference[] {
  return findMarkChanges(a, b).map((mark) => ({
    ...{ kind: `${mark.kind}-changed` as const, sentence: sayMarkChange(mark, names), mark },
    ...{ secondsLonger: seconds(0), before: null, after: null },
  }));
}

function compareCuts(
  score: Score,
  map: TempoMap,
  a: readonly CutTerms[],
  b: readonly CutTerms[],
  names: PlaceNames,
): EditionDifference[] {
  const order = findPerformedOrder(score);
  const saved = (cut: CutTerms | null) => (cut ? secondsOf(score, order, map, cut) : 0);
  return pairCuts(a, b).map((pair) => ({
    ...pair,
    kind: kindOf(pair),
    sentence: sayCutChange(pair, names, saved),
    secondsLonger: seconds(saved(pair.before) - saved(pair.after)),
    mark: null,
  }));
}

function kindOf({ before, after }: CutPair): EditionDifference["kind"] {
  if (before === null) return "cut-added";
  return after === null ? "cut-removed" : "cut-moved";
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
    const none = { secondsLonger: seconds(0), before: null, after: null, mark: null };
    return [{ kind: "part-changed" as const, sentence, ...none }];
  });
}
