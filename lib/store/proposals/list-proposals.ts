import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import { type ProposalRecord, proposalParts, toProposalRecord } from "./proposal-record";

/**
 * Every cut that was proposed in a piece, by number, then in the order they were put forward. A reader, who is no part of
 * the discussion, gets the agreed ones without what was said about them.
 */
export async function listProposals(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<ProposalRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const rows = await database().proposal.findMany({
    where: { pieceId, kind: "cut" },
    orderBy: [{ number: "asc" }, { createdAt: "asc" }, { id: "asc" }],
    include: proposalParts,
  });
  const records = rows.map(toProposalRecord);
  if (may(membership.value.role, "read-discussion")) return success(records);
  return success(records.filter(({ state }) => state === "agreed").map(withoutWords));
}

function withoutWords(record: ProposalRecord): ProposalRecord {
  return {
    ...record,
    reason: "",
    why: null,
    answers: record.answers.map((answer) => ({ ...answer, reason: "" })),
  };
}
