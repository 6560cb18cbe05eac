import { z } from "zod";
import { recordIdSchema } from "@/lib/room/record-id";
import type { Result } from "@/lib/score/result";
import { parseInput } from "@/lib/store/parse-input";
import { markCommentsSeen } from "@/lib/store/room/mark-comments-seen";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

const seenSchema = z.object({ commentIds: z.array(recordIdSchema).min(1).max(200) });

/** Notes that comments were on a person's screen. */
export async function markSeen(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const seen = parseInput(seenSchema, input);
  return seen.ok ? markCommentsSeen(viewer, pieceId, seen.value.commentIds) : seen;
}
