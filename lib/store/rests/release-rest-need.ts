import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeNeed, refuseRemoved } from "./change-need";
import { needIdSchema } from "./need-id-schema";
import type { RestNeedRecord } from "./rest-need-record";

/** Lets a need go, under the soloist's name: it is shown and no longer kept. */
export async function releaseRestNeed(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  const asked = parseInput(needIdSchema, input);
  if (!asked.ok) return asked;
  return changeNeed(viewer, pieceId, asked.value.needId, (need) => {
    const there = refuseRemoved(need);
    if (!there.ok) return there;
    if (need.releasedBy !== null) return success(null);
    const change = { releasedById: viewer.userId, releasedAt: now() };
    return success({ deeds: ["released"], change });
  });
}
