import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions } from "@/lib/score/position";
import { addQuarters, compareQuarters, readQuarters } from "@/lib/score/quarters";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";

/** Why a rewrite cannot stand where it says. */
export type RewritePlaceProblem =
  | { readonly kind: "no-such-part" }
  | { readonly kind: "not-the-reduction"; readonly partName: string }
  | { readonly kind: "outside-the-piece"; readonly barCount: number }
  | { readonly kind: "empty-span" }
  /** Something begins outside the span, runs over its bar, or is on a staff that the part lacks. */
  | { readonly kind: "outside-the-span"; readonly barLabel: string };

/** One sentence for the reader. */
export function sayRewritePlaceProblem(problem: RewritePlaceProblem): string {
  switch (problem.kind) {
    case "no-such-part":
      return "The part that this changes is not in the score.";
    case "not-the-reduction":
      return `Only the reduction is rewritten, and ${problem.partName || "this part"} is not the reduction.`;
    case "outside-the-piece":
      return `The piece has ${problem.barCount} bars. Choose bars that are in it.`;
    case "empty-span":
      return "A rewrite has one bar at least, and ends after it begins.";
    case "outside-the-span":
      return `In bar ${problem.barLabel} something lies outside the bars that are rewritten.`;
  }
}

/**
 * Whether everything in a rewrite has its place in a score: its part is the reduction, its bars exist, and every event lies
 * in its bar, in the span and on a staff of the part.
 *
 * @param score its parts in their roles. @param terms that passed `rewriteTermsSchema`.
 */
export function checkRewritePlaces(score: Score, terms: RewriteTerms): Result<null, RewritePlaceProblem> {
  const part = score.parts.find(({ id }) => id === terms.partId);
  if (!part) return failure({ kind: "no-such-part" });
  if (part.role !== "reduction") return failure({ kind: "not-the-reduction", partName: part.name });
  const [from, to] = [toPosition(terms.from), toPosition(terms.to)];
  if (comparePositions(from, to) >= 0) return failure({ kind: "empty-span" });
  if (!isInPiece(score, terms.from) || !isInPiece(score, terms.to))
    return failure({ kind: "outside-the-piece", barCount: score.bars.length });
  const stray = terms.events.find(
    (event) => event.staff > part.staffCount || !liesInSpan(score, terms, event),
  );
  if (!stray) return success(null);
  const barLabel = score.bars[stray.at.barIndex]?.label ?? `${stray.at.barIndex + 1}`;
  return failure({ kind: "outside-the-span", barLabel });
}

/** The end of the piece is the start of the bar behind the last. */
function isInPiece(score: Score, terms: RewriteTerms["from"]): boolean {
  const { barIndex, offset } = toPosition(terms);
  const bar = score.bars[barIndex];
  if (!bar) return barIndex === score.bars.length && offset.num === 0;
  return compareQuarters(offset, bar.length) <= 0;
}

function liesInSpan(score: Score, { from, to }: RewriteTerms, { at, lasts }: RewriteEvent): boolean {
  const bar = score.bars[at.barIndex];
  const length = readQuarters(lasts);
  if (!bar || !length) return false;
  const start = toPosition(at);
  const end = { barIndex: at.barIndex, offset: addQuarters(start.offset, length) };
  return (
    compareQuarters(end.offset, bar.length) <= 0 &&
    comparePositions(start, toPosition(from)) >= 0 &&
    comparePositions(end, toPosition(to)) <= 0
  );
}
