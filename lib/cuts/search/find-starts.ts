import { fifthsBetween, type Key } from "@/lib/harmony/key";
import type { CutSpan } from "@/lib/score/cut-span";
import { compareQuarters, noQuarters } from "@/lib/score/quarters";
import { seconds } from "@/lib/score/seconds";
import { assessJoin } from "../join/assess-join";
import { worstGrade } from "../join/join-row";
import { leadInEnd } from "../join/lead-in";
import type { Heard } from "../join/listen";
import type { Place } from "../join/places";
import { type CandidatePlace, findCandidatePlaces } from "./candidate-places";
import { type CutFilters, checkFilters, findKeptMarks, takesAny } from "./cut-filters";
import { isNear } from "./fold-pairs";
import type { FoundCut } from "./found-cut";
import { gradeCosts, insideBarCost } from "./join-worth";
import { sayReasons } from "./say-reasons";
import { leastBars } from "./weigh-pairs";

/** How much each sign of a good beginning counts. Source: common practice. */
const weights = { phrase: 0.4, largeBar: 0.15, key: 0.25, opening: 0.2 } as const;

function likeKey(key: Key | null, wanted: Key | null): number {
  if (!key || !wanted) return 0.5;
  if (key.tonic === wanted.tonic && key.mode === wanted.mode) return 1;
  return fifthsBetween(key, wanted) <= 1 ? 0.4 : 0;
}

/** Whether the piece's opening, or a theme of it, begins with a place. */
function beginsTheme({ themes }: Heard, { bar }: Place): number {
  return themes.some(({ statements }) => statements.some(({ from }) => from === bar)) ? 1 : 0;
}

function worthOfStart(heard: Heard, place: Place, entryKey: Key | null): number {
  const home = heard.keys[0] ?? null;
  const key = Math.max(likeKey(place.keyAfter, home), likeKey(place.keyAfter, entryKey));
  return (
    weights.phrase * place.phraseStart +
    weights.largeBar * (place.inLargeBar === 0 ? 1 : 0) +
    weights.key * key +
    weights.opening * beginsTheme(heard, place)
  );
}

/** Places more than two beats apart, the first of those that are not. */
function keepApart<T extends CandidatePlace>(starts: readonly T[]): T[] {
  const kept: T[] = [];
  for (const start of starts) if (!kept.some((other) => isNear(other, start))) kept.push(start);
  return kept;
}

/**
 * "Start at": places of an opening to begin the piece with, the best first. Everything before is left out.
 *
 * @returns cuts from the very beginning, at most `filters.limit`.
 * @throws RangeError if the span lies outside the piece or a filter is out of range.
 */
export function findStarts(heard: Heard, span: CutSpan, filters: CutFilters = {}): FoundCut[] {
  checkFilters(filters);
  const beginning = { barIndex: 0, offset: noQuarters };
  const marks = findKeptMarks(heard.score, filters);
  const starts = findCandidatePlaces(heard, span, filters)
    .tos.filter(({ place, seconds: saved }) =>
      filters.leastSeconds === undefined ? place.bar >= leastBars : saved >= filters.leastSeconds,
    )
    .filter(({ seconds: saved }) => saved <= (filters.mostSeconds ?? saved))
    .map((candidate) => ({ ...candidate, cut: { from: beginning, to: candidate.place.position } }))
    .filter(({ cut }) => heard.checkCut(cut).ok && !takesAny(heard.score, cut, marks));
  const ranked = starts.map((start) => {
    const entry = leadInEnd(heard, start.time);
    const entryKey = heard.keys.findLast(({ onset }) => entry && compareQuarters(onset, entry) <= 0) ?? null;
    const worth = worthOfStart(heard, start.place, entryKey);
    return { ...start, cost: 1 - worth + (start.isBarLine ? 0 : insideBarCost) };
  });
  const limit = filters.limit ?? 10;
  const judged = keepApart(ranked.sort((a, b) => a.cost - b.cost || a.seconds - b.seconds))
    .slice(0, 3 * limit)
    .map(({ cut, cost, seconds: saved }): FoundCut => {
      const assessment = assessJoin(heard, cut);
      const grade = worstGrade(assessment.rows.map((row) => row.grade));
      return {
        ...cut,
        grade,
        cost: cost + gradeCosts[grade],
        reasons: sayReasons(assessment),
        savedSeconds: seconds(saved),
        assessment,
        alsoAt: [],
      };
    });
  return judged.sort((a, b) => a.cost - b.cost || a.savedSeconds - b.savedSeconds).slice(0, limit);
}
