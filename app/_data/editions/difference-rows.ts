import type { DeskAnswer, DeskCut } from "@/app/_data/desk/desk";
import type { ScoreInTime } from "@/app/_data/desk/in-time";
import type { Stretch } from "@/app/_ui/strip/strip-piece";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { hashTerms } from "@/lib/edition/hash-terms";
import { findClockStretches } from "@/lib/score/clock-stretches";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";
import type { DifferenceRow, Said } from "./editions-view";

/** What the lines of a comparison are told from. */
export interface RowsOf {
  readonly earlier: ScoreInTime;
  readonly later: ScoreInTime;
  /** Every proposal of the piece that the viewer may see. */
  readonly cuts: readonly DeskCut[];
  readonly nameCut: (span: CutSpan) => string;
}

/** Differences as lines of a table: where, from what to what, and who asked and agreed. */
export function toRows(about: RowsOf, differences: readonly EditionDifference[]): DifferenceRow[] {
  return differences.map((difference) => {
    const { kind, sentence, secondsLonger, before, after } = difference;
    const proposal = findProposal(about.cuts, after ?? before);
    return {
      ...{ kind, sentence, secondsLonger },
      cutNumber: proposal?.number ?? null,
      before: before && about.nameCut(toCutSpan(before)),
      after: after && about.nameCut(toCutSpan(after)),
      proposed: proposal && { userId: proposal.proposedBy, at: proposal.createdAt },
      answered: proposal && lastWord(proposal, after ? "agree" : "reopen"),
      place: placeOf(about, before, after),
    };
  });
}

/** The proposal of exactly these terms that was agreed last; of several with the same terms, the newest. */
function findProposal(cuts: readonly DeskCut[], terms: CutTerms | null): DeskCut | null {
  if (terms === null) return null;
  const hash = hashTerms(terms);
  const same = cuts.filter((cut) => cut.termsHash === hash);
  return same.findLast((cut) => lastWord(cut, "agree") !== null) ?? null;
}

function lastWord(cut: DeskCut, kind: DeskAnswer["answer"]): Said | null {
  const said = cut.answers.findLast(({ answer }) => answer === kind);
  return said ? { userId: said.userId, at: said.at } : null;
}

function placeOf(
  { earlier, later }: RowsOf,
  before: CutTerms | null,
  after: CutTerms | null,
): DifferenceRow["place"] {
  const spans = [before, after].flatMap((terms) => (terms ? [toCutSpan(terms)] : []));
  const [first, ...others] = spans;
  if (!first) return null;
  const whole = others.reduce<CutSpan>(
    (sum, { from, to }) => ({
      from: comparePositions(from, sum.from) < 0 ? from : sum.from,
      to: comparePositions(to, sum.to) > 0 ? to : sum.to,
    }),
    first,
  );
  const [one, other] = [stretchOf(earlier, whole), stretchOf(later, whole)];
  return one && other ? { earlier: one, later: other } : null;
}

/** Where it first sounds. */
function stretchOf(inTime: ScoreInTime, span: CutSpan): Stretch | null {
  return findClockStretches(inTime, span)[0] ?? null;
}
