import { sayProposedSet } from "@/lib/cuts/plan/say-proposed-set";
import type { CutPlanReasons } from "@/lib/edition/cut-reasons";
import { type CutTerms, cutTermsSchema, toCutSpan } from "@/lib/edition/cut-terms";
import { tempoTermsSchema, toTempoSettings } from "@/lib/edition/tempo-terms";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { findRunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import type { PieceChangeWork } from "../in-piece";

interface NumberedSet {
  readonly score: Score;
  readonly set: readonly CutTerms[];
  /** That the cuts of the set bear, in any order. */
  readonly numbers: readonly number[];
  readonly limitSeconds: number | null;
}

/** What a set of cuts makes of the running time, in the duo's tempi and with what is agreed at this moment. */
export async function findSetPlan(
  { tx, membership }: PieceChangeWork,
  { score, set, numbers, limitSeconds }: NumberedSet,
): Promise<CutPlanReasons> {
  const { pieceId } = membership;
  const { tempo } = await tx.piece.findUniqueOrThrow({ where: { id: pieceId }, select: { tempo: true } });
  const agreed = (await findAgreed(tx, pieceId)).filter(
    ({ number, terms }) => !numbers.includes(number) && terms.sourceHash === set[0]?.sourceHash,
  );
  const cuts = [...agreed.map(({ terms }) => terms), ...set].map(toCutSpan);
  const map = readTempoMap(score, toTempoSettings(tempoTermsSchema.parse(tempo)));
  const runsSeconds = findRunningTime(score, leaveOut(score, findPerformedOrder(score), cuts), map).seconds;
  const agreedNumbers = agreed.map(({ number }) => number);
  return {
    sentence: sayProposedSet({ numbers, agreedNumbers, runsSeconds, limitSeconds }),
    limitSeconds,
    runsSeconds,
    cuts: set.map(({ from, to }) => ({ from, to })),
  };
}

async function findAgreed(tx: PieceChangeWork["tx"], pieceId: string) {
  const where = { pieceId, kind: "cut", state: "agreed" } as const;
  const rows = await tx.proposal.findMany({ where, select: { number: true, terms: true } });
  return rows.map(({ number, terms }) => ({ number, terms: cutTermsSchema.parse(terms) }));
}
