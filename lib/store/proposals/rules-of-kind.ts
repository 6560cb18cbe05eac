import type { ProposalKind } from "@/generated/prisma/client";
import { cutTermsSchema } from "@/lib/edition/cut-terms";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { failure, type Result } from "@/lib/score/result";
import type { PieceChangeWork } from "../in-piece";
import type { PieceScore } from "../pieces/read-piece-score";
import { giveWay } from "../rewrites/give-way";
import { otherSourceOfRewrite } from "../rewrites/prepare-rewrite";
import { refuseSharedBars } from "../rewrites/refuse-shared-bars";
import type { StoreProblem } from "../store-problem";
import { otherSource } from "./prepare-cut";
import type { ProposalRow } from "./proposal-record";
import { refuseOverlap } from "./refuse-overlap";

/** What is particular to a kind of proposal, where both players answer it in the same way. */
interface RulesOfKind {
  /** Why it cannot be agreed to now, while the piece is held: its music, or what is agreed already in its bars. */
  readonly refuseAgreeing: (
    work: PieceChangeWork,
    proposal: ProposalRow,
    piece: Pick<PieceScore, "score" | "sourceHash">,
  ) => Promise<Result<null, StoreProblem>>;
  /** Lets what held under its number until now give way to it: it is agreed. */
  readonly giveWay: (work: PieceChangeWork, proposal: ProposalRow) => Promise<void>;
}

const cutRules: RulesOfKind = {
  refuseAgreeing: async (work, proposal, { score, sourceHash }) => {
    const terms = cutTermsSchema.parse(proposal.terms);
    if (terms.sourceHash !== sourceHash) return failure(otherSource);
    return refuseOverlap(work, score, terms, proposal.number);
  },
  giveWay: async ({ tx, membership: { pieceId } }, { id, kind, number }) => {
    await tx.proposal.updateMany({
      where: { pieceId, kind, number, state: "agreed", NOT: { id } },
      data: { state: "superseded" },
    });
  },
};

const rewriteRules: RulesOfKind = {
  refuseAgreeing: async (work, proposal, { score, sourceHash }) => {
    const terms = rewriteTermsSchema.parse(proposal.terms);
    if (terms.sourceHash !== sourceHash) return failure(otherSourceOfRewrite);
    const version = await findVersion(work, proposal);
    return version ? refuseSharedBars(work, score, terms, proposal.number) : failure(noVersion(proposal));
  },
  giveWay: async (work, proposal) => {
    const version = await findVersion(work, proposal);
    if (!version) throw new Error(`proposal ${proposal.id} is about no version of a rewrite`);
    await giveWay(work, version, "standing");
  },
};

export const rulesOfKind: Readonly<Record<ProposalKind, RulesOfKind>> = {
  cut: cutRules,
  rewrite: rewriteRules,
};

/** The version of a rewrite that is asked about, as long as nothing took its place. */
function findVersion({ tx }: PieceChangeWork, { id, termsHash }: ProposalRow) {
  return tx.rewrite.findFirst({
    where: { proposalId: id, termsHash, sharing: "asked", replacedAt: null, takenOffAt: null },
    select: { id: true, number: true },
  });
}

const noVersion = ({ number }: ProposalRow): StoreProblem => ({
  kind: "stale-terms",
  sentence: `Rewrite ${number} is no longer what was proposed. Look again before you answer.`,
});
