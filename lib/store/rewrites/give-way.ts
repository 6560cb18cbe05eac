import { now } from "../clock";
import type { PieceChangeWork } from "../in-piece";
import { supersedeQuestion } from "./end-question";
import { recordDeed } from "./record-deed";
import { isStanding, type RewriteRow, rewriteParts } from "./rewrite-record";

/**
 * Lets the other shared versions of a number give way to one: all of them when it stands from now on; while it is only asked
 * about, those that do not stand. Private ones are their author's and stay.
 */
export async function giveWay(
  work: PieceChangeWork,
  to: { readonly id: string; readonly number: number },
  from: "asked" | "standing",
): Promise<void> {
  const others = await work.tx.rewrite.findMany({
    where: {
      ...{ pieceId: work.membership.pieceId, number: to.number, replacedAt: null },
      ...{ sharing: { not: "only_me" }, NOT: { id: to.id } },
    },
    include: rewriteParts,
  });
  for (const other of others)
    if (from === "standing" || !isStanding(other)) {
      await supersedeQuestion(work, other);
      await replace(work, other);
    }
}

/** Notes that another version has taken the place of this one. */
export async function replace(
  work: PieceChangeWork,
  { id: rewriteId, sharing }: Pick<RewriteRow, "id" | "sharing">,
): Promise<void> {
  await work.tx.rewrite.update({ where: { id: rewriteId }, data: { replacedAt: now() } });
  await recordDeed(work, { rewriteId, what: "replaced", sharing, reason: "" });
}
