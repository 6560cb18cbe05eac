import { canonicalJson } from "@/lib/edition/canonical-json";
import { newRestNeedSchema, type RestNeedTerms } from "@/lib/edition/rest-need-terms";
import { type Result, success } from "@/lib/score/result";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeNeed, refuseRemoved } from "./change-need";
import { needIdSchema } from "./need-id-schema";
import { prepareRestNeed } from "./prepare-rest-need";
import type { RestNeedRecord } from "./rest-need-record";

/**
 * Changes where a need lies, how long it is or why. What was released were the terms as they stood: with another place
 * or length the need holds again.
 */
export async function changeRestNeed(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  const named = parseInput(needIdSchema, input);
  if (!named.ok) return named;
  const asked = parseInput(newRestNeedSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "set-rests");
  if (!membership.ok) return membership;
  const prepared = await prepareRestNeed(viewer, pieceId, asked.value);
  if (!prepared.ok) return prepared;
  const terms = prepared.value;
  return changeNeed(viewer, pieceId, named.value.needId, (need) => {
    const there = refuseRemoved(need);
    if (!there.ok) return there;
    if (isSame(need.terms, terms)) return success(null);
    if (need.releasedBy === null || isSame({ ...need.terms, why: terms.why }, terms))
      return success({ deeds: ["changed"], change: { terms } });
    const held = { releasedById: null, releasedAt: null };
    return success({ deeds: ["changed", "held again"], change: { terms, ...held } });
  });
}

const isSame = (a: RestNeedTerms, b: RestNeedTerms) => canonicalJson(a) === canonicalJson(b);
