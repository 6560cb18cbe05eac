import { type Result, success } from "@/lib/score/result";
import { type Database, database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { may } from "../who-may";
import {
  isSeenBy,
  type RewriteRecord,
  type RewriteRow,
  rewriteParts,
  toRewriteRecord,
} from "./rewrite-record";

/**
 * Every rewrite of a piece as it is now, by number: what is told and asked, and what the viewer keeps to themselves. What
 * another player keeps to themselves is not there. A reader, who is no part of the discussion, gets what stands, without
 * what was said about it.
 */
export async function listRewrites(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<RewriteRecord[], StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const records = await recordsFor(viewer, pieceId, database());
  if (may(membership.value.role, "read-discussion")) return success(records);
  return success(records.filter(({ stands }) => stands).map(withoutWords));
}

/** The current versions that somebody sees. */
async function recordsFor(viewer: Viewer, pieceId: string, db: Database): Promise<RewriteRecord[]> {
  const rows = await db.rewrite.findMany({
    where: { pieceId },
    orderBy: [{ number: "asc" }, { createdAt: "asc" }, { id: "asc" }],
    include: rewriteParts,
  });
  const visible = rows.filter((row) => isSeenBy(viewer, row));
  const byId = new Map<string, RewriteRow>(visible.map((row) => [row.id, row]));
  return visible.filter(({ replacedAt }) => replacedAt === null).map((row) => toRewriteRecord(row, byId));
}

/** One version as the viewer sees it now. @throws Error if it is none of the viewer's to see, or was replaced. */
export async function recordOf(
  viewer: Viewer,
  pieceId: string,
  rewriteId: string,
  db: Database,
): Promise<RewriteRecord> {
  const record = (await recordsFor(viewer, pieceId, db)).find(({ id }) => id === rewriteId);
  if (!record) throw new Error(`no version ${rewriteId} to show`);
  return record;
}

function withoutWords(record: RewriteRecord): RewriteRecord {
  const { proposal } = record;
  return {
    ...record,
    ...{ reason: "", earlier: [] },
    proposal: proposal && {
      ...proposal,
      reason: "",
      answers: proposal.answers.map((answer) => ({ ...answer, reason: "" })),
    },
  };
}
