import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeNeed } from "./change-need";
import { needIdSchema } from "./need-id-schema";
import type { RestNeedRecord } from "./rest-need-record";

/** Takes a need off the list. It can be brought back, as it was. */
export async function removeRestNeed(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  const asked = parseInput(needIdSchema, input);
  if (!asked.ok) return asked;
  return changeNeed(viewer, pieceId, asked.value.needId, (need) => {
    if (need.removedAt !== null) return success(null);
    return success({ deeds: ["removed"], change: { removedAt: now() } });
  });
}
