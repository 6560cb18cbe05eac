import { comparePositions } from "@/lib/score/position";
import { applyChanges } from "./apply-changes";
import { canonicalJson, type JsonValue } from "./canonical-json";
import type { ChangeProblem } from "./change-problem";
import { takeCommonSteps } from "./common-steps";
import { type CutTerms, toCutSpan, toCutTerms } from "./cut-terms";
import type { EditionChange } from "./edition-change";
import type { EditionContent } from "./edition-content";
import { findChanges } from "./find-changes";
import { isSameCut, sharesMusic } from "./pair-cuts";
import { isSame } from "./pair-marks";

/** Why a change of the other version cannot simply be made here too. */
export type MergeConflict =
  /**
   * A cut of the other takes some of the bars that cuts of this one take, or both made something else of one cut. None
   * stands here where this one opened the cut that the other moved.
   */
  | {
      readonly kind: "cuts";
      readonly mine: readonly CutTerms[];
      /** One cut of all that either leaves out; null where both cannot be had. */
      readonly both: CutTerms | null;
    }
  /** Each by itself leaves these needed rests, by id; together they take too much of them. */
  | { readonly kind: "rest"; readonly mine: readonly CutTerms[]; readonly needs: readonly string[] }
  /** This one has decided the same thing otherwise. */
  | { readonly kind: "decided"; readonly problem: ChangeProblem };

/** Something that the other version has and this one lacks. */
export interface MergeOffer {
  /** From the common start to the other version. */
  readonly change: EditionChange;
  readonly conflict: MergeConflict | null;
}

export interface Merge {
  /** In the order in which `findChanges` tells them. */
  readonly offers: readonly MergeOffer[];
  /** This version with every change of the other that stands against nothing here. */
  readonly merged: EditionContent;
}

type CutChange = Extract<EditionChange, { kind: "cut" }>;

/**
 * What another version of the same music has that this one lacks, found against what both began with: whatever only the
 * other changed is offered, what both changed alike is not told, and what both changed otherwise is a conflict. As what
 * they were frozen is no decision of anybody's and not merged.
 *
 * @param base what both began with: an edition, or the print.
 * @param brokenNeeds ids of the needed rests that a set of cuts leaves too little of.
 * @throws RangeError if the three are not of one source.
 */
export function mergeEditions(
  base: EditionContent,
  mine: EditionContent,
  theirs: EditionContent,
  brokenNeeds: (cuts: readonly CutTerms[]) => readonly string[] = () => [],
): Merge {
  if (base.sourceHash !== mine.sourceHash || base.sourceHash !== theirs.sourceHash)
    throw new RangeError("Versions of different sources cannot be merged");
  const start = takeCommonSteps(base, mine, theirs);
  const mineChanges = new Set(findChanges(start, mine).map(write));
  const changes = findChanges(start, theirs).filter(
    (change) => change.kind !== "schema" && !mineChanges.has(write(change)),
  );
  const given = changes.flatMap((change) => (change.kind === "cut" && change.before ? [change.before] : []));
  const offers = changes.map((change): MergeOffer => {
    const conflict =
      change.kind === "cut"
        ? (findCutConflict(mine, change, given) ?? findRestConflict(mine, change, brokenNeeds))
        : findDecided(makeRoom(mine, changes, change), change);
    return { change, conflict };
  });
  const free = offers.flatMap(({ change, conflict }) => (conflict ? [] : [change]));
  const applied = applyChanges(mine, settle(mine, free));
  if (!applied.ok) throw new Error(`what stands against nothing does not fit: ${applied.problem.kind}`);
  return { offers, merged: applied.value };
}

const write = (change: EditionChange): string => canonicalJson(change as JsonValue);

/** A change says what stood before; of a cut that is gone here already only the new one is left to add. */
function settle(mine: EditionContent, changes: readonly EditionChange[]): EditionChange[] {
  return changes.map((change) => {
    if (change.kind !== "cut" || change.before === null) return change;
    const { before } = change;
    return mine.cuts.some((cut) => isSameCut(cut, before)) ? change : { ...change, before: null };
  });
}

/** @param given cuts of the common start that the other has given up: they make room here too. */
function findCutConflict(
  mine: EditionContent,
  { before, after }: CutChange,
  given: readonly CutTerms[],
): MergeConflict | null {
  const stays = mine.cuts.filter((cut) => !given.some((one) => isSameCut(one, cut)));
  const hasBefore = before === null || mine.cuts.some((cut) => isSameCut(cut, before));
  const became = before === null || hasBefore ? [] : stays.filter((cut) => sharesMusic(cut, before));
  const inTheWay = after === null ? [] : stays.filter((cut) => sharesMusic(cut, after));
  const against = stays.filter((cut) => became.includes(cut) || inTheWay.includes(cut));
  if (hasBefore && against.length === 0) return null;
  return { kind: "cuts", mine: against, both: after && uniteCuts([...inTheWay, after], stays) };
}

/** One cut over all of them; null for a single one, for cuts that lie apart, and where it would run into yet another. */
function uniteCuts(cuts: readonly CutTerms[], stays: readonly CutTerms[]): CutTerms | null {
  const [first, ...others] = cuts;
  if (!first || others.length === 0) return null;
  const span = others.map(toCutSpan).reduce(
    (sum, { from, to }) => ({
      from: comparePositions(from, sum.from) < 0 ? from : sum.from,
      to: comparePositions(to, sum.to) > 0 ? to : sum.to,
    }),
    toCutSpan(first),
  );
  const whole = toCutTerms(span, first.sourceHash);
  const isOneOfThem = cuts.some((cut) => isSameCut(cut, whole));
  const runsInto = stays.some((cut) => !cuts.includes(cut) && sharesMusic(cut, whole));
  return isOneOfThem || runsInto ? null : whole;
}

function findRestConflict(
  mine: EditionContent,
  { before, after }: CutChange,
  brokenNeeds: (cuts: readonly CutTerms[]) => readonly string[],
): MergeConflict | null {
  if (after === null) return null;
  const others = mine.cuts.filter((cut) => before === null || !isSameCut(cut, before));
  const known = new Set(brokenNeeds(mine.cuts));
  const isNew = (cuts: readonly CutTerms[]) => brokenNeeds(cuts).filter((need) => !known.has(need));
  const needs = isNew([...others, after]);
  if (needs.length === 0) return null;
  const against = others.filter(
    (cut) => isNew([...others.filter((other) => other !== cut), after]).length === 0,
  );
  return { kind: "rest", mine: against, needs };
}

/** Without the rewrites that the other has given up: what came in the place of two of them fits only then. */
function makeRoom(
  mine: EditionContent,
  changes: readonly EditionChange[],
  change: EditionChange,
): EditionContent {
  const given = changes.flatMap((other) =>
    other.kind === "rewrite" && other.before && other !== change ? [other.before] : [],
  );
  return {
    ...mine,
    rewrites: mine.rewrites.filter((rewrite) => !given.some((one) => isSame(one, rewrite))),
  };
}

function findDecided(mine: EditionContent, change: EditionChange): MergeConflict | null {
  const applied = applyChanges(mine, [change]);
  return applied.ok ? null : { kind: "decided", problem: applied.problem };
}
