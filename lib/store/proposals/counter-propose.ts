import { z } from "zod";
import { hashTerms } from "@/lib/edition/hash-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import { findReasons } from "../reasons/find-reasons";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findProposal } from "./find-proposal";
import { prepareCut } from "./prepare-cut";
import { type ProposalRecord, type ProposalRow, toProposalRecord } from "./proposal-record";
import { newCutSchema } from "./propose-cut";
import { putForward } from "./put-forward";
import { refuseOverlap } from "./refuse-overlap";
import { alreadyAnswered } from "./say-state";

const counterSchema = newCutSchema.extend({
  /** What it is put in the place of. */
  proposalId: z.string().max(100),
  /** The state in which that one was seen: should it have changed meanwhile, nothing is put forward. */
  seenState: z.enum(["open", "agreed", "declined", "withdrawn", "reopened"]).default("open"),
});

/**
 * Puts other terms in the place of a proposal, under its number, for the other player to answer. An open
 * proposal is superseded at once, one's own as well as the other's. An agreed cut holds until the new terms
 * are agreed to. What was declined, taken back or reopened can so be put forward anew.
 */
export async function counterPropose(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<ProposalRecord, StoreProblem>> {
  const asked = parseInput(counterSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "propose");
  if (!membership.ok) return membership;
  const prepared = await prepareCut(viewer, pieceId, asked.value);
  if (!prepared.ok) return prepared;
  const { terms, score } = prepared.value;
  const { reason, proposalId, seenState } = asked.value;
  // A number never changes, so it may be read before the piece is held.
  const numbered = await findProposal({ tx: database(), membership: membership.value }, proposalId, "cut");
  if (!numbered.ok) return numbered;
  const [why = null] = await findReasons(pieceId, { cuts: [terms], number: numbered.value.number });
  return inPiece(viewer, pieceId, "propose", async (work) => {
    const found = await findProposal(work, proposalId, "cut");
    if (!found.ok) return found;
    const replaced = found.value;
    if (replaced.state !== seenState) return failure(await alreadyAnswered(work.tx, replaced));
    const isFree = await refuseReplacing(work, replaced, hashTerms(terms));
    if (!isFree.ok) return isFree;
    const free = await refuseOverlap(work, score, terms, replaced.number);
    if (!free.ok) return free;
    if (replaced.state === "open") await supersede(work, replaced, reason);
    const row = await putForward(work, { terms, reason, why, replaces: replaced });
    await noteChange(work, {
      what: "cut counter-proposed",
      about: { proposalId: row.id, number: row.number, termsHash: row.termsHash, supersedes: replaced.id },
      change: "proposals",
    });
    return success(toProposalRecord(row));
  });
}

/** The same terms once more are no other terms, and two open proposals never stand in one place. */
async function refuseReplacing(
  { tx }: PieceChangeWork,
  replaced: ProposalRow,
  termsHash: string,
): Promise<Result<null, StoreProblem>> {
  const isOpenOrAgreed = replaced.state === "open" || replaced.state === "agreed";
  if (isOpenOrAgreed && replaced.termsHash === termsHash)
    return failure({
      kind: "invalid-input",
      sentence: "These are the same bars. Change an end of the cut first.",
    });
  const { pieceId, number } = replaced;
  // An open proposal may stand beside the agreed cut that it would change; nothing else may.
  const inTheWay = replaced.state === "open" ? (["open"] as const) : (["open", "agreed"] as const);
  const other = await tx.proposal.findFirst({
    where: { pieceId, kind: "cut", number, state: { in: [...inTheWay] }, NOT: { id: replaced.id } },
    select: { state: true },
  });
  if (!other) return success(null);
  const state = other.state === "open" ? "has an open proposal" : "is agreed on other terms";
  return failure({ kind: "conflict", sentence: `Cut ${number} ${state} already. Look at that first.` });
}

async function supersede(
  { tx, membership }: PieceChangeWork,
  { id: proposalId, termsHash }: ProposalRow,
  reason: string,
): Promise<void> {
  const { userId } = membership;
  await tx.answer.create({
    data: { proposalId, userId, answer: "counter", reason, termsHash, at: now() },
  });
  await tx.proposal.update({ where: { id: proposalId }, data: { state: "superseded" } });
}
