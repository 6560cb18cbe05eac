import { z } from "zod";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import { type CutTerms, hashSchema } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { isRestored, planRestoration, type Restoration } from "@/lib/edition/plan-restoration";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readPieceScore } from "../pieces/read-piece-score";
import { findMainSource, toJson } from "../pieces/score-of-source";
import { type ProposalRow, proposalParts } from "../proposals/proposal-record";
import { putForward } from "../proposals/put-forward";
import { readMembership } from "../read-membership";
import { findReasons } from "../reasons/find-reasons";
import { restoreRewrites } from "../rewrites/restore-rewrites";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import type { EditionRecord } from "./edition-record";
import { endApprovals } from "./end-approvals";
import { readEdition } from "./read-edition";
import { findWorkingPiece } from "./working-edition";

const restoreSchema = z.object({
  editionNumber: z.int().min(1).max(100_000),
  /** Hash of what stood when it was asked what this would do: should it have changed since, nothing is done. */
  workingHash: hashSchema,
});

/** What was done. */
export interface RestoredEdition {
  readonly reopened: number;
  /** Cuts put forward now, or left open as they were in exactly these terms. */
  readonly proposed: number;
  /** Rewrites taken off, told or put forward. */
  readonly rewrites: number;
}

/**
 * Begins to make an old edition stand again: agreed cuts that it lacks are reopened, cuts that it has are put forward for
 * the other player to answer, tempi and parts are set as they were. The pianist takes off the rewrites that it lacks, and
 * brings back those that it has: told again where they were told, else put forward. Nobody agrees for another, and the old
 * edition stays as it is. All of it is done in one transaction, or nothing.
 *
 * @returns "stale-terms" when something has changed since it was shown, "conflict" when there is nothing to bring back.
 */
export async function restoreEdition(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestoredEdition, StoreProblem>> {
  const asked = parseInput(restoreSchema, input);
  if (!asked.ok) return asked;
  const { editionNumber, workingHash } = asked.value;
  const membership = await readMembership(viewer, pieceId, "propose");
  if (!membership.ok) return membership;
  const read = await readEdition(viewer, pieceId, editionNumber);
  if (!read.ok) return read;
  const old = read.value;
  const music = await readPieceScore(viewer, pieceId);
  if (!music.ok) return music;
  const reasons = await findReasonsFor(pieceId, old);
  return inPiece(viewer, pieceId, "propose", async (work) => {
    const piece = await findWorkingPiece(pieceId, work.tx);
    if (piece.hash !== workingHash) return failure(changedMeanwhile);
    if (piece.content.sourceHash !== old.content.sourceHash) return failure(sayOtherFile(editionNumber));
    const rewrites = may(work.membership.role, "rewrite");
    const plan = planRestoration(piece.content, old.content, { rewrites });
    if (isRestored(plan)) return failure(sayNothing(editionNumber));
    await reopen(work, plan.reopened, `as № ${editionNumber} has it`);
    const proposed = await propose(work, plan.proposed, old, reasons);
    const restored = await restoreRewrites(work, music.value.score, plan, `as № ${editionNumber} has it`);
    if (!restored.ok) return restored;
    await setTempoAndParts(work, plan);
    await endApprovals(work.tx, pieceId);
    await noteChange(work, {
      what: "edition brought back",
      about: { number: editionNumber, hash: old.hash },
      change: "editions",
    });
    const { takenOff, broughtBack } = plan;
    return success({
      ...{ reopened: plan.reopened.length, proposed },
      rewrites: takenOff.length + broughtBack.length,
    });
  });
}

const changedMeanwhile: StoreProblem = {
  kind: "stale-terms",
  sentence: "Something has changed since this was on your screen. Look again at what it would do.",
};

function sayOtherFile(number: number): StoreProblem {
  const sentence = `№ ${number} was made from another file, so its cuts have no place in this one. It stays to be read and printed.`;
  return { kind: "conflict", sentence };
}

function sayNothing(number: number): StoreProblem {
  const sentence = `What stands now is cut and timed as № ${number} is. There is nothing to bring back.`;
  return { kind: "conflict", sentence };
}

/** Of every cut of the old edition, beside the others of it; by the hash of its terms. */
async function findReasonsFor(
  pieceId: string,
  { content: { cuts } }: EditionRecord,
): Promise<ReadonlyMap<string, CutReasons | null>> {
  const found = await findReasons(pieceId, { cuts, number: null, agreed: [] });
  return new Map(cuts.map((cut, index) => [hashTerms(cut), found[index] ?? null]));
}

async function reopen(work: PieceChangeWork, cuts: readonly CutTerms[], reason: string): Promise<void> {
  const { tx, membership } = work;
  const { pieceId, userId } = membership;
  for (const cut of cuts) {
    const termsHash = hashTerms(cut);
    const { id: proposalId, number } = await tx.proposal.findFirstOrThrow({
      where: { pieceId, kind: "cut", state: "agreed", termsHash },
    });
    await tx.answer.create({
      data: { proposalId, userId, answer: "reopen", reason, termsHash, at: now() },
    });
    await tx.proposal.update({ where: { id: proposalId }, data: { state: "reopened" } });
    await noteChange(work, {
      what: "cut reopened",
      about: { proposalId, number, termsHash },
      change: "proposals",
    });
  }
}

async function propose(
  work: PieceChangeWork,
  cuts: Restoration["proposed"],
  old: EditionRecord,
  reasons: ReadonlyMap<string, CutReasons | null>,
): Promise<number> {
  for (const { terms, insteadOf } of cuts) {
    const termsHash = hashTerms(terms);
    if (await isOpen(work, termsHash)) continue;
    const replaces = await findReplaced(work, termsHash, insteadOf);
    const reason = `As № ${old.number} has it.`;
    const row = await putForward(work, { terms, reason, why: reasons.get(termsHash) ?? null, replaces });
    await noteChange(work, {
      what: replaces ? "cut counter-proposed" : "cut proposed",
      about: { proposalId: row.id, number: row.number, termsHash },
      change: "proposals",
    });
  }
  return cuts.length;
}

async function isOpen({ tx, membership }: PieceChangeWork, termsHash: string): Promise<boolean> {
  const { pieceId } = membership;
  return (await tx.proposal.count({ where: { pieceId, kind: "cut", state: "open", termsHash } })) > 0;
}

/**
 * What a cut is put in the place of, so that it keeps the number that both know it by: the cut that it was moved from, else
 * what was once put forward in the same terms. Not where anything else is open or agreed under that number.
 */
async function findReplaced(
  { tx, membership }: PieceChangeWork,
  termsHash: string,
  insteadOf: CutTerms | null,
): Promise<ProposalRow | null> {
  const { pieceId } = membership;
  for (const hash of insteadOf ? [hashTerms(insteadOf), termsHash] : [termsHash]) {
    const before = await tx.proposal.findFirst({
      where: { pieceId, kind: "cut", termsHash: hash },
      orderBy: [{ createdAt: "desc" }, { id: "desc" }],
      include: proposalParts,
    });
    if (!before) continue;
    const { number } = before;
    const standing = await tx.proposal.count({
      where: { pieceId, kind: "cut", number, state: { in: ["open", "agreed"] } },
    });
    if (standing === 0) return before;
  }
  return null;
}

async function setTempoAndParts(
  { tx, membership }: PieceChangeWork,
  { tempo, partRoles }: Restoration,
): Promise<void> {
  const { pieceId } = membership;
  if (tempo) await tx.piece.update({ where: { id: pieceId }, data: { tempo } });
  if (!partRoles) return;
  const { id } = await findMainSource(pieceId, tx);
  await tx.source.update({ where: { id }, data: { partRoles: toJson(partRoles) } });
}
