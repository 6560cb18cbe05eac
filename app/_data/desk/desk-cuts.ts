import { checkCut } from "@/lib/cuts/check-cut";
import { nameCut } from "@/lib/cuts/name-cut";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { findClockStretches } from "@/lib/score/clock-stretches";
import type { CutSpan } from "@/lib/score/cut-span";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import type { MemberRole } from "@/lib/store/who-may";
import type { DeskCut, DeskPerson } from "./desk";
import type { ScoreInTime } from "./in-time";
import { waitsFor } from "./waits-for";
import { weighForDesk } from "./weigh";

/** What is needed to see the proposals as one member sees them. */
export interface CutsOf {
  readonly inTime: ScoreInTime;
  readonly sourceHash: string;
  readonly proposals: readonly ProposalRecord[];
  readonly people: readonly DeskPerson[];
  readonly me: { readonly userId: string; readonly role: MemberRole };
}

interface Known {
  readonly proposal: ProposalRecord;
  readonly span: CutSpan;
  /** It can be made in the file that the piece has now. */
  readonly isPossible: boolean;
}

/** Every proposal as the screen shows it. */
export function deskCuts(about: CutsOf): DeskCut[] {
  const known = about.proposals.map((proposal) => know(about, proposal));
  return known.map((one) => toDeskCut(about, known, one));
}

/** The cuts that are agreed. */
export function agreedSpans(about: CutsOf): CutSpan[] {
  return agreedOf(about.proposals.map((proposal) => know(about, proposal))).map(({ span }) => span);
}

function know({ inTime, sourceHash }: CutsOf, proposal: ProposalRecord): Known {
  const span = toCutSpan(proposal.terms);
  const isPossible = proposal.terms.sourceHash === sourceHash && checkCut(inTime.score, span).ok;
  return { proposal, span, isPossible };
}

function agreedOf(known: readonly Known[]): Known[] {
  return known.filter(({ proposal, isPossible }) => proposal.state === "agreed" && isPossible);
}

function toDeskCut(about: CutsOf, known: readonly Known[], one: Known): DeskCut {
  const { proposal, span, isPossible } = one;
  const { id, number, state, proposedBy, reason, why, termsHash, terms, frozenInEditions } = proposal;
  const isDrawn = isPossible && (state === "open" || state === "agreed");
  return {
    ...{ id, number, state, proposedBy, reason, why, termsHash },
    createdAt: proposal.createdAt.toISOString(),
    from: terms.from,
    to: terms.to,
    name: sayName(about.inTime, one),
    ...barsOf(span),
    gaps: isDrawn ? findClockStretches(about.inTime, span) : [],
    weight: isDrawn ? weighOne(about.inTime, known, one) : null,
    answers: proposal.answers.map(({ userId, answer, reason: said, at }) => ({
      ...{ userId, answer, reason: said },
      at: at.toISOString(),
    })),
    instead: findReplaced(about, known, one),
    frozenIn: [...frozenInEditions],
    isStale: !isPossible,
    waitsForMe: waitsFor(about.me, about.people, proposal),
  };
}

function sayName({ score }: ScoreInTime, { proposal, span, isPossible }: Known): string {
  if (isPossible) return nameCut(score, span);
  return `bars ${proposal.terms.from.barIndex + 1}–${proposal.terms.to.barIndex} of another file`;
}

/** First and last bar touched: a cut that goes on at a bar line does not touch the bar after it. */
function barsOf({ from, to }: CutSpan): { firstBar: number; lastBar: number } {
  const lastBar = to.offset.num === 0 ? to.barIndex - 1 : to.barIndex;
  return { firstBar: from.barIndex, lastBar: Math.max(from.barIndex, lastBar) };
}

/** With the other agreed cuts, less those of the same number: the agreed cut that an open one would replace gives way. */
function weighOne(inTime: ScoreInTime, known: readonly Known[], { proposal, span }: Known) {
  const others = agreedOf(known).filter((other) => other.proposal.number !== proposal.number);
  return weighForDesk(
    inTime,
    others.map((other) => other.span),
    span,
  );
}

function findReplaced({ inTime }: CutsOf, known: readonly Known[], { proposal }: Known): DeskCut["instead"] {
  const replaced = known.find((other) => other.proposal.id === proposal.supersedes);
  if (!replaced) return null;
  const saved = replaced.isPossible ? weighOne(inTime, known, replaced).savedSeconds : 0;
  const { id, proposedBy } = replaced.proposal;
  return { id, name: sayName(inTime, replaced), proposedBy, savedSeconds: saved };
}
