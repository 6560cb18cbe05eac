import { newRestNeedSchema } from "@/lib/edition/rest-need-terms";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece } from "../in-piece";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { recordDeed } from "./change-need";
import { prepareRestNeed } from "./prepare-rest-need";
import { mostNeeds, refuseMore } from "./rest-need-limit";
import { type RestNeedRecord, restNeedParts, toRestNeedRecord } from "./rest-need-record";

/** Notes how long the soloist must be silent somewhere, and why. */
export async function noteRestNeed(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  const asked = parseInput(newRestNeedSchema, input);
  if (!asked.ok) return asked;
  // Who may not, is told so before anything is said about the place.
  const membership = await readMembership(viewer, pieceId, "set-rests");
  if (!membership.ok) return membership;
  const prepared = await prepareRestNeed(viewer, pieceId, asked.value);
  if (!prepared.ok) return prepared;
  const terms = prepared.value;
  return inPiece(viewer, pieceId, "set-rests", async (work) => {
    const { userId } = work.membership;
    if ((await work.tx.restNeed.count({ where: { pieceId } })) >= mostNeeds) return refuseMore;
    const { id } = await work.tx.restNeed.create({
      data: { pieceId, notedById: userId, terms: terms, createdAt: now(), changedAt: now() },
    });
    await recordDeed(work, id, "noted", terms);
    const row = await work.tx.restNeed.findUniqueOrThrow({ where: { id }, include: restNeedParts });
    return success(toRestNeedRecord(row));
  });
}
