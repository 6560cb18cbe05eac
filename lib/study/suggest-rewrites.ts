import { toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import type { Steps } from "@/lib/score/steps";
import { handsReport } from "./hands-at-tempo";
import type { Study } from "./open-study";
import { type RewriteOffer, rewritePassageInSteps } from "./rewrite-passage";

export interface SuggestQuestion {
  readonly sourceHash: string;
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly hands: HandsProfile;
  /** Share of the duo's tempo. */
  readonly pace: number;
}

export interface SuggestedRewrites {
  /** The bars as they are printed, to write something else from. */
  readonly printed: RewriteTerms;
  /** The best first; none when nothing makes them easier. */
  readonly offers: readonly RewriteOffer[];
}

/** What was found in a study, by what was asked; the latest last. */
const foundIn = new WeakMap<Study, Map<string, SuggestedRewrites>>();
/** The passages of a hard piece at two tempi. */
const mostKept = 120;

/**
 * Ways of writing a passage so that it lies under the hands. What was asked before is answered at once.
 *
 * @throws RangeError if the score has no reduction, or the bars do not lie in it.
 */
export function* suggestRewrites(study: Study, question: SuggestQuestion): Steps<SuggestedRewrites> {
  const kept = foundIn.get(study) ?? new Map<string, SuggestedRewrites>();
  foundIn.set(study, kept);
  const key = JSON.stringify(question);
  const known = kept.get(key);
  if (known) return known;
  const { bars: demands } = yield* handsReport(study, question.hands);
  const { score, map } = study;
  const offers = yield* rewritePassageInSteps({ ...question, score, map, demands });
  const found = { printed: printedTerms(study, question), offers };
  kept.set(key, found);
  const [oldest] = kept.keys();
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
  return found;
}

/**
 * Bars of the reduction as they are printed, in the terms of a rewrite.
 *
 * @throws RangeError if the score has no reduction, or the bars do not lie in it.
 */
export function printedTerms(
  { score }: Pick<Study, "score">,
  { sourceHash, fromBar, toBar }: Pick<SuggestQuestion, "sourceHash" | "fromBar" | "toBar">,
): RewriteTerms {
  const part = score.parts.find(({ role }) => role === "reduction");
  const last = score.bars[toBar];
  if (!part || !last || !(fromBar <= toBar)) {
    throw new RangeError(`No reduction in the bars with indices ${fromBar} to ${toBar}`);
  }
  const bars = score.bars.slice(fromBar, toBar + 1);
  return toRewriteTerms({
    ...{ sourceHash, partId: part.id, fromBar, words: "" },
    to: toPositionTerms({ barIndex: toBar, offset: last.length }),
    bars: bars.map(({ index }) => readBarEvents(score, part, index)),
  });
}
