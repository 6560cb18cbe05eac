import { comparePositions } from "@/lib/score/position";
import type { EditionChange } from "./edition-change";
import { type EditionContent, hashEdition, type Marks } from "./edition-content";
import type { MarkChange } from "./mark-change";
import { pairCuts } from "./pair-cuts";
import { isSame, pairBreaths, pairCues, pairRemarks, pairRewrites } from "./pair-marks";
import { type PositionTerms, toPosition } from "./position-terms";
import type { TempoTerms } from "./tempo-terms";

/**
 * The steps from edition `a` to edition `b`; none exactly when they have the same hash.
 *
 * @param a as is `b`, an edition whose cuts do not overlap, as all that are agreed.
 */
export function findChanges(a: EditionContent, b: EditionContent): EditionChange[] {
  if (hashEdition(a) === hashEdition(b)) return [];
  if (a.sourceHash !== b.sourceHash) return [{ kind: "source", before: a, after: b }];
  return [
    ...pairCuts(a.cuts, b.cuts).map((pair) => ({ kind: "cut" as const, ...pair })),
    ...findMarkChanges(a, b),
    ...findTempi(a.tempo.tempi, b.tempo.tempi),
    ...findTimings(a.tempo.timings, b.tempo.timings),
    ...findAllowances(a.tempo, b.tempo),
    ...findParts(a.partRoles, b.partRoles),
    ...(a.schema === b.schema ? [] : [{ kind: "schema" as const, before: a.schema, after: b.schema }]),
  ];
}

/** Breaths, cues, rewrites and printed comments that are not the same, each kind in the order of the page. */
export function findMarkChanges(a: Marks, b: Marks): MarkChange[] {
  return [
    ...pairBreaths(a.breaths, b.breaths).map((pair) => ({ kind: "breath" as const, ...pair })),
    ...pairCues(a.cues, b.cues).map((pair) => ({ kind: "cue" as const, ...pair })),
    ...pairRewrites(a.rewrites, b.rewrites).map((pair) => ({ kind: "rewrite" as const, ...pair })),
    ...pairRemarks(a.remarks, b.remarks).map((pair) => ({ kind: "remark" as const, ...pair })),
  ];
}

type Tempi = TempoTerms["tempi"];
type Timings = TempoTerms["timings"];

const compareTerms = (a: PositionTerms, b: PositionTerms) => comparePositions(toPosition(a), toPosition(b));
const compareTimings = (a: Timings[number], b: Timings[number]) =>
  compareTerms(a.from, b.from) || compareTerms(a.to, b.to);
const compareTempi = (a: Tempi[number], b: Tempi[number]) => compareTerms(a.at, b.at);

function findTempi(before: Tempi, after: Tempi): EditionChange[] {
  const pairs = pairItems(before, after, compareTempi);
  if (pairs === null) return isSame(before, after) ? [] : [{ kind: "tempi", before, after }];
  return pairs.map(({ place, old, now }) => ({
    ...{ kind: "tempo", at: place.at },
    before: old?.quartersPerMinute ?? null,
    after: now?.quartersPerMinute ?? null,
  }));
}

function findTimings(before: Timings, after: Timings): EditionChange[] {
  const pairs = pairItems(before, after, compareTimings);
  if (pairs === null) return isSame(before, after) ? [] : [{ kind: "timings", before, after }];
  return pairs.map(({ place: { from, to }, old, now }) => ({
    ...{ kind: "timing", from, to },
    before: old?.seconds ?? null,
    after: now?.seconds ?? null,
  }));
}

function findAllowances(before: TempoTerms, after: TempoTerms): EditionChange[] {
  const fields = ["ritardandoTo", "fermataFactor"] as const;
  return fields
    .filter((field) => before[field] !== after[field])
    .map((field) => ({ kind: "allowance", field, before: before[field], after: after[field] }));
}

function findParts(a: EditionContent["partRoles"], b: EditionContent["partRoles"]): EditionChange[] {
  const [before, after] = [new Map(Object.entries(a)), new Map(Object.entries(b))];
  return [...new Set([...before.keys(), ...after.keys()])]
    .filter((partId) => before.get(partId) !== after.get(partId))
    .map((partId) => ({
      ...{ kind: "part", partId },
      before: before.get(partId) ?? null,
      after: after.get(partId) ?? null,
    }));
}

interface ItemPair<Item> {
  readonly place: Item;
  readonly old: Item | null;
  readonly now: Item | null;
}

/** What differs, place by place; null when a list names a place twice or out of order, so that places do not tell it. */
function pairItems<Item extends Tempi[number] | Timings[number]>(
  before: readonly Item[],
  after: readonly Item[],
  compare: (a: Item, b: Item) => number,
): ItemPair<Item>[] | null {
  const isSettled = (list: readonly Item[]) =>
    list.every((item, index) => index === 0 || compare(list[index - 1] ?? item, item) < 0);
  if (!isSettled(before) || !isSettled(after)) return null;
  const only = before.filter((old) => after.every((now) => compare(old, now) !== 0));
  return [...only, ...after].toSorted(compare).flatMap((place) => {
    const find = (list: readonly Item[]) => list.find((item) => compare(item, place) === 0) ?? null;
    const pair = { place, old: find(before), now: find(after) };
    return isSame(pair.old, pair.now) ? [] : [pair];
  });
}
