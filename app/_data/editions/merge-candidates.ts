import { runningTimeWith } from "@/app/_data/desk/desk-time";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { checkCut } from "@/lib/cuts/check-cut";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { MergeConflict, MergeOffer } from "@/lib/edition/merge-editions";
import { isSameCut } from "@/lib/edition/pair-cuts";
import { type About, inTimeOfContent, namesOf } from "./edition-sides";
import { findAgreed, proposeStep } from "./merge-step";
import type { MergeCandidate } from "./merge-view";

type CutConflict = Exclude<MergeConflict, { kind: "decided" }>;

/** Of a conflict between cuts: this one, the other, and both together where that can be had. */
export function listCandidates(about: About, { change, conflict }: MergeOffer): MergeCandidate[] {
  if (conflict === null || conflict.kind === "decided" || change.kind !== "cut") return [];
  const { cuts } = about.working.content;
  const without = (gone: readonly CutTerms[]) =>
    cuts.filter((cut) => !gone.some((one) => isSameCut(one, cut)));
  const others = without([...conflict.mine, ...(change.before ? [change.before] : [])]);
  return [
    candidate(about, "This one", { cuts, own: conflict.mine, toReplace: null }),
    candidate(about, "The other", {
      cuts: change.after ? [...others, change.after] : others,
      own: change.after ? [change.after] : [],
      toReplace: conflict.mine,
    }),
    ...bothTogether(about, conflict, change.after, without, others),
  ];
}

function bothTogether(
  about: About,
  conflict: CutConflict,
  after: CutTerms | null,
  without: (gone: readonly CutTerms[]) => CutTerms[],
  others: readonly CutTerms[],
): MergeCandidate[] {
  if (after === null) return [];
  if (conflict.kind === "rest") {
    const all = [...without([]), after];
    return [candidate(about, "Both together", { cuts: all, own: [after], toReplace: [] })];
  }
  const { both } = conflict;
  if (both === null || !checkCut(about.music.score, toCutSpan(both)).ok) return [];
  return [
    candidate(about, "Both together", { cuts: [...others, both], own: [both], toReplace: conflict.mine }),
  ];
}

interface CandidateOf {
  /** All that would be cut. */
  readonly cuts: readonly CutTerms[];
  /** Those of it that the conflict is about. */
  readonly own: readonly CutTerms[];
  /** Agreed cuts that would give way; null for what stands already. */
  readonly toReplace: readonly CutTerms[] | null;
}

function candidate(
  about: About,
  name: MergeCandidate["name"],
  { cuts, own, toReplace }: CandidateOf,
): MergeCandidate {
  const inTime = inTimeOfContent(about, about.working.content);
  const spans = cuts.map(toCutSpan);
  const [first] = own;
  const isOne = own.length === 1 && first !== undefined;
  const agreed = (toReplace ?? []).flatMap((cut) => findAgreed(about.desk.cuts, cut) ?? []);
  const step = toReplace && isOne ? proposeStep(first, agreed) : null;
  return {
    name,
    words:
      own.length === 0 ? "played" : `${own.map((cut) => namesOf(about).cut(toCutSpan(cut))).join(", ")} cut`,
    seconds: runningTimeWith(inTime, spans).seconds,
    rests: checkRestNeeds(inTime.score, inTime.map, spans, about.desk.needs)
      .filter(({ verdict }) => verdict === "short")
      .map(({ sentence }) => sentence),
    judged: isOne ? { cut: endsOf(first), agreed: cuts.filter((cut) => cut !== first).map(endsOf) } : null,
    step: step ?? reopenStep(toReplace, own, agreed),
    note: sayNote(
      toReplace,
      own,
      agreed.map(({ number }) => number),
    ),
  };
}

const endsOf = ({ from, to }: CutTerms) => ({ from, to });

function reopenStep(
  toReplace: readonly CutTerms[] | null,
  own: readonly CutTerms[],
  agreed: readonly { readonly id: string }[],
): MergeCandidate["step"] {
  const [only, ...others] = agreed;
  if (toReplace === null || own.length > 0 || !only || others.length > 0) return null;
  return { kind: "reopen", proposalId: only.id };
}

function sayNote(
  toReplace: readonly CutTerms[] | null,
  own: readonly CutTerms[],
  numbers: readonly number[],
): string | null {
  if (toReplace === null) return "stands";
  if (numbers.length < 2) return null;
  return own.length === 0
    ? `Reopen cuts ${numbers.join(" and ")} for it.`
    : `Reopen cuts ${numbers.join(" and ")} first; then it can be put forward.`;
}
