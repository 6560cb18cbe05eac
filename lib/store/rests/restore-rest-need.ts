import { type Result, success } from "@/lib/score/result";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeNeed } from "./change-need";
import { needIdSchema } from "./need-id-schema";
import type { RestNeedRecord } from "./rest-need-record";

/** Brings a need back that was taken off the list. */
export async function restoreRestNeed(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  const asked = parseInput(needIdSchema, input);
  if (!asked.ok) return asked;
  return changeNeed(viewer, pieceId, asked.value.needId, (need) => {
    if (need.removedAt === null) return success(null);
    return success({ deeds: ["brought back"], change: { removedAt: null } });
  });
}
