import { z } from "zod";
import { recordIdSchema } from "@/lib/room/record-id";
import { maxRecords } from "@/lib/room/room-limits";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const commentIdsSchema = z.array(recordIdSchema).max(200, "At most 200 comments are marked as read at once.");

/**
 * Notes that comments were on the viewer's screen. The first time stands.
 *
 * @param commentIds at most 200.
 * @returns "conflict" when more would be noted than a room has comments.
 */
export async function markCommentsSeen(
  viewer: Viewer,
  pieceId: string,
  commentIds: readonly string[],
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(commentIdsSchema, commentIds);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "read-discussion");
  if (!membership.ok) return membership;
  const { userId } = viewer;
  const ids = [...new Set(asked.value)];
  const others = await database().commentSeen.count({
    where: { pieceId, userId, commentId: { notIn: ids } },
  });
  // Ids are the client's word: without a limit the table would grow with whatever it makes up.
  if (others + ids.length > maxRecords.comments)
    return failure({ kind: "conflict", sentence: "No piece holds so many comments." });
  await database().commentSeen.createMany({
    data: ids.map((commentId) => ({ pieceId, userId, commentId, at: now() })),
    skipDuplicates: true,
  });
  return success(null);
}
