import { z } from "zod";
import { nameCut } from "@/lib/cuts/name-cut";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import type { CutPlanReasons } from "@/lib/edition/cut-reasons";
import { type CutTerms, hashSchema, toCutSpan } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { positionTermsSchema, toPosition } from "@/lib/edition/position-terms";
import { comparePositions } from "@/lib/score/position";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { limitSchema } from "../pieces/set-limit";
import { readMembership } from "../read-membership";
import { findReasons } from "../reasons/find-reasons";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findSetPlan } from "./find-set-plan";
import { prepareCuts } from "./prepare-cut";
import { type ProposalRecord, type ProposalRow, proposalParts, toProposalRecord } from "./proposal-record";
import { nextNumber, putForward } from "./put-forward";
import { reasonSchema } from "./reason-schema";
import { refuseOverlap } from "./refuse-overlap";

/** As many as `cutReasonsSchema` keeps of a set; more than any plan of a movement has. */
const mostCuts = 24;

const newSetSchema = z.object({
  /** The source on whose bars the cuts were chosen. */
  sourceHash: hashSchema,
  cuts: z
    .array(z.strictObject({ from: positionTermsSchema, to: positionTermsSchema }))
    .min(1, "Choose at least one cut.")
    .max(mostCuts, `At most ${mostCuts} cuts are put forward at once.`),
  reason: reasonSchema,
  /** What the set was planned for; null when it was not planned. */
  plan: z.strictObject({ limitSeconds: limitSchema }).nullable(),
});

/** What became of the cuts of a set, each list in the order of the page. */
export interface ProposedCuts {
  readonly proposed: readonly ProposalRecord[];
  /** Cuts of the set that were open or agreed before, in exactly these terms: they are left as they are. */
  readonly left: readonly ProposalRecord[];
}

/** Asks the other player to agree to a set of cuts: all of them are put forward, each under its number, or none. */
export async function proposeCuts(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<ProposedCuts, StoreProblem>> {
  const asked = parseInput(newSetSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "propose");
  if (!membership.ok) return membership;
  const { sourceHash, cuts, reason, plan } = asked.value;
  const prepared = await prepareCuts(viewer, pieceId, sourceHash, cuts);
  if (!prepared.ok) return prepared;
  const { score } = prepared.value;
  const set = prepared.value.terms.toSorted(byPlace);
  const apart = refuseOverlapInSet(score, set);
  if (!apart.ok) return apart;
  const reasons = await findReasons(pieceId, { cuts: set, number: null });
  return inPiece(viewer, pieceId, "propose", async (work) => {
    const standing = await findStanding(work, set);
    const fresh = set.flatMap((terms, index) =>
      standing.has(hashTerms(terms)) ? [] : [{ terms, why: reasons[index] ?? null }],
    );
    for (const terms of set) {
      const free = await refuseOverlap(work, score, terms, standing.get(hashTerms(terms))?.number ?? null);
      if (!free.ok) return free;
    }
    const left = [...standing.values()];
    const planned = plan && (await planOf(work, { score, set, left, limitSeconds: plan.limitSeconds }));
    const proposed: ProposalRow[] = [];
    for (const { terms, why } of fresh) {
      const kept = why && { ...why, plan: planned };
      proposed.push(await putForwardNew(work, { terms, reason, why: kept }));
    }
    return success({ proposed: proposed.map(toProposalRecord), left: left.map(toProposalRecord) });
  });
}

const byPlace = (a: CutTerms, b: CutTerms) => comparePositions(toPosition(a.from), toPosition(b.from));

/** @param set in the order of the page. */
function refuseOverlapInSet(score: Score, set: readonly CutTerms[]): Result<null, StoreProblem> {
  const spans = set.map(toCutSpan);
  for (const [index, span] of spans.entries()) {
    const other = findOverlap(spans.slice(0, index), span);
    if (other) {
      const sentence = `Two cuts of the set share bars: ${nameCut(score, other)} and ${nameCut(score, span)}. Choose one of them.`;
      return failure({ kind: "conflict", sentence });
    }
  }
  return success(null);
}

/** The open and agreed proposals whose terms are those of a cut in the set, by the hash of the terms. */
async function findStanding(
  { tx, membership }: PieceChangeWork,
  set: readonly CutTerms[],
): Promise<Map<string, ProposalRow>> {
  const rows = await tx.proposal.findMany({
    where: {
      pieceId: membership.pieceId,
      kind: "cut",
      state: { in: ["open", "agreed"] },
      termsHash: { in: set.map(hashTerms) },
    },
    // Of an open and an agreed one with equal terms, the agreed one is named.
    orderBy: [{ state: "asc" }, { createdAt: "asc" }],
    include: proposalParts,
  });
  const byHash = new Map(rows.map((row) => [row.termsHash, row]));
  return new Map(
    set.flatMap((terms) => {
      const row = byHash.get(hashTerms(terms));
      return row ? [[row.termsHash, row] as const] : [];
    }),
  );
}

interface SetToPlan {
  readonly score: Score;
  readonly set: readonly CutTerms[];
  readonly left: readonly ProposalRow[];
  readonly limitSeconds: number | null;
}

/** New proposals are numbered one after another while the piece is held, so their numbers can be told beforehand. */
async function planOf(
  work: PieceChangeWork,
  { score, set, left, limitSeconds }: SetToPlan,
): Promise<CutPlanReasons> {
  const first = await nextNumber(work);
  const fresh = Array.from({ length: set.length - left.length }, (_, index) => first + index);
  const numbers = [...left.map(({ number }) => number), ...fresh];
  return findSetPlan(work, { score, set, numbers, limitSeconds });
}

type NewOfSet = Omit<Parameters<typeof putForward>[1], "replaces">;

async function putForwardNew(work: PieceChangeWork, cut: NewOfSet): Promise<ProposalRow> {
  const row = await putForward(work, { ...cut, replaces: null });
  await noteChange(work, {
    what: "cut proposed",
    about: { proposalId: row.id, number: row.number, termsHash: row.termsHash },
    change: "proposals",
  });
  return row;
}
