import type { DeskAnswer, DeskCut } from "@/app/_data/desk/desk";
import type { ScoreInTime } from "@/app/_data/desk/in-time";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import type { Stretch } from "@/app/_ui/strip/strip-piece";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { hashTerms } from "@/lib/edition/hash-terms";
import type { Mark } from "@/lib/edition/mark-change";
import type { PositionTerms } from "@/lib/edition/position-terms";
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
      bars: barsOf(difference),
      written: writtenOf(difference),
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

/** The bars that a difference touches: of a cut all that either side leaves out, of a mark those it is written over. */
function barsOf({ before, after, mark }: EditionDifference): BarSpan | null {
  const marks = mark === null ? [] : [mark.before, mark.after];
  const spans = [before, after, ...marks].flatMap((terms) => (terms ? [spanOfTerms(terms)] : []));
  if (spans.length === 0) return null;
  return {
    firstBar: Math.min(...spans.map(({ firstBar }) => firstBar)),
    lastBar: Math.max(...spans.map(({ lastBar }) => lastBar)),
  };
}

function spanOfTerms(
  terms: { readonly at: PositionTerms } | { readonly from: PositionTerms; readonly to: PositionTerms },
): BarSpan {
  if ("at" in terms) {
    // What stands at a bar line is read at the end of the bar before it.
    const bar = Math.max(0, terms.at.offset === "0" ? terms.at.barIndex - 1 : terms.at.barIndex);
    return { firstBar: bar, lastBar: terms.at.barIndex };
  }
  const { from, to } = terms;
  const last = to.offset === "0" ? to.barIndex - 1 : to.barIndex;
  return { firstBar: from.barIndex, lastBar: Math.max(from.barIndex, last) };
}

function writtenOf({ mark }: EditionDifference): DifferenceRow["written"] {
  if (mark === null) return null;
  const earlier = mark.before && wordOf({ kind: mark.kind, terms: mark.before } as Mark);
  const later = mark.after && wordOf({ kind: mark.kind, terms: mark.after } as Mark);
  const none = `no ${noneWords[mark.kind]} here`;
  return { earlier: earlier ?? none, later: later ?? none };
}

const noneWords = { breath: "breath", cue: "cue", rewrite: "rewrite", remark: "comment" } as const;

function wordOf({ kind, terms }: Mark): string {
  switch (kind) {
    case "breath":
      return "breath";
    case "cue":
      return `cue ${terms.text}`;
    case "rewrite":
      return terms.words === "" ? "rewrite" : `rewrite: ${terms.words}`;
    case "remark":
      return `“${terms.text.length > 40 ? `${terms.text.slice(0, 39)}…` : terms.text}”`;
  }
}
