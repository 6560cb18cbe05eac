import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { pieceLength } from "@/lib/score/piece-length";
import type { Position } from "@/lib/score/position";
import { positionAt } from "@/lib/score/position-at";
import { compareQuarters, type Quarters } from "@/lib/score/quarters";
import { seconds } from "@/lib/score/seconds";
import type { Step, Steps } from "@/lib/score/steps";
import { assessJoin, assessRows } from "../join/assess-join";
import { type JoinRow, worstGrade } from "../join/join-row";
import { leadInEnd } from "../join/lead-in";
import type { Heard } from "../join/listen";
import { type CandidatePlace, findCandidatePlaces } from "./candidate-places";
import { type CutFilters, checkFilters, findKeptMarks, takesAny } from "./cut-filters";
import { type FoldedPairs, foldPairs } from "./fold-pairs";
import type { FoundCut } from "./found-cut";
import { gradeCosts } from "./join-worth";
import { sayReasons } from "./say-reasons";
import { type WeighedPair, weighPairs } from "./weigh-pairs";

const usualLimit = 10;
/** So many more are judged than are returned: a good number may be graded down. */
const judgedPerReturned = 4;
/** Of cuts that come to the same so many are judged for a better one. */
const judgedAside = 4;

interface Judged {
  readonly pair: WeighedPair;
  readonly rows: readonly JoinRow[];
  readonly cost: number;
  readonly others: readonly WeighedPair[];
}

const spanOf = ({ from, to }: WeighedPair): CutSpan => ({
  from: from.place.position,
  to: to.place.position,
});

function judge(heard: Heard, pair: WeighedPair, others: readonly WeighedPair[]): Judged {
  const rows = assessRows(heard, spanOf(pair));
  const cost = pair.cost + gradeCosts[worstGrade(rows.map(({ grade }) => grade))];
  return { pair, rows, cost, others };
}

function compareJudged(a: Judged, b: Judged): number {
  return (
    a.cost - b.cost || a.pair.from.seconds - b.pair.from.seconds || a.pair.to.seconds - b.pair.to.seconds
  );
}

/** The best of cuts that come to the same, now that they are graded. */
function judgeGroup(heard: Heard, { best, others }: FoldedPairs): Judged | null {
  const all = [best, ...others.slice(0, judgedAside)].filter((pair) => heard.checkCut(spanOf(pair)).ok);
  const [first] = all;
  if (!first) return null;
  const own = judge(heard, first, others);
  if (own.cost === first.cost) return own;
  const judged = [own, ...all.slice(1).map((pair) => judge(heard, pair, others))];
  return judged.sort(compareJudged)[0] ?? null;
}

function describe(heard: Heard, { pair, cost, others }: Judged): FoundCut {
  const cut = spanOf(pair);
  const assessment = assessJoin(heard, cut);
  return {
    ...cut,
    grade: assessment.grade,
    cost,
    reasons: sayReasons(assessment),
    savedSeconds: seconds(pair.to.seconds - pair.from.seconds),
    assessment,
    alsoAt: others.filter((other) => other !== pair).map(spanOf),
  };
}

function keepsTheme({ rows }: Judged): boolean {
  return !rows.some(({ kind, grade }) => kind === "theme" && grade !== "clean");
}

/** Nearer than this at both ends two cuts are variants of one idea. Source: common practice, a group of four bars. */
const barsOfOneIdea = 4;

function isVariant({ pair: a }: Judged, { pair: b }: Judged): boolean {
  const isClose = (one: CandidatePlace, other: CandidatePlace) =>
    Math.abs(one.ticks - other.ticks) < barsOfOneIdea * one.barTicks;
  return isClose(a.from, b.from) && isClose(a.to, b.to);
}

/** The best of every idea first; variants as far as there is room, but rather than rough joins. In order of cost. */
function chooseApart(judged: readonly Judged[], limit: number): Judged[] {
  const [ideas, variants]: [Judged[], Judged[]] = [[], []];
  for (const one of judged) {
    const isNew = one.cost < gradeCosts.rough && !ideas.some((other) => isVariant(other, one));
    (isNew ? ideas : variants).push(one);
  }
  return [...ideas, ...variants].slice(0, limit).sort(compareJudged);
}

/**
 * Searches a span for cuts, as `findCuts` does, and says after every place how far it has come. Who drives the generator
 * may do other things in between, or stop.
 *
 * @throws RangeError if the span lies outside the piece or a filter is out of range.
 */
export function* searchCuts(heard: Heard, span: CutSpan, filters: CutFilters = {}): Steps<FoundCut[]> {
  checkFilters(filters);
  const limit = filters.limit ?? usualLimit;
  const places = findCandidatePlaces(heard, span, filters);
  const pairs = yield* weighPairs(heard, places, filters);
  const marks = findKeptMarks(heard.score, filters);
  const allowed =
    marks.length === 0 ? pairs : pairs.filter((pair) => !takesAny(heard.score, spanOf(pair), marks));
  const judged: Judged[] = [];
  for (const group of foldPairs(heard, allowed, limit * judgedPerReturned)) {
    const best = judgeGroup(heard, group);
    if (best && (!filters.keepTheme || keepsTheme(best))) judged.push(best);
    yield { done: places.froms.length, total: places.froms.length };
  }
  return chooseApart(judged.sort(compareJudged), limit).map((one) => describe(heard, one));
}

export interface SearchOptions {
  /** Called after every place; returning false stops the search, which then finds nothing. */
  readonly onProgress?: (progress: Step) => boolean | undefined;
}

/**
 * Cuts inside a span, the best first: from every beat (or bar line) to every later one with the same place in the metre
 * that keeps enough before the soloist's next entry. Ranked by precedent, phrase, hypermetre and key; a join that is
 * rougher than nearly all of the piece's own bar lines comes last. Cuts that come to the same are folded into one, and of
 * cuts that differ by less than four bars at both ends the best goes before any second one is taken.
 *
 * @returns at most `filters.limit`; none when the span is too short.
 * @throws RangeError if the span lies outside the piece or a filter is out of range.
 */
export function findCuts(
  heard: Heard,
  span: CutSpan,
  filters: CutFilters = {},
  options: SearchOptions = {},
): FoundCut[] {
  const search = searchCuts(heard, span, filters);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
    if (options.onProgress?.(step.value) === false) return [];
  }
}

function entryAfter(heard: Heard, time: Quarters): Quarters {
  const next = heard.solo.find(({ from }) => compareQuarters(from, time) > 0)?.from;
  return leadInEnd(heard, time) ?? next ?? pieceLength(heard.score);
}

/** "From here to the next solo entry": the cuts that begin at one place, the best landing first. */
export function findCutsFrom(
  heard: Heard,
  from: Position,
  filters: CutFilters = {},
  options: SearchOptions = {},
): FoundCut[] {
  const to = positionAt(heard.score, entryAfter(heard, onsetOf(heard.score, from)));
  return findCuts(heard, { from, to }, { ...filters, from }, options);
}
