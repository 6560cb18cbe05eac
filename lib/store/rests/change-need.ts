import type { Prisma } from "@/generated/prisma/client";
import type { RestNeedTerms } from "@/lib/edition/rest-need-terms";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import {
  type RestNeedDeed,
  type RestNeedRecord,
  type RestNeedRow,
  restNeedParts,
  toRestNeedRecord,
} from "./rest-need-record";

/** A need of the piece that is being changed. */
async function findNeed(
  { tx, membership }: PieceChangeWork,
  needId: string,
): Promise<Result<RestNeedRow, StoreProblem>> {
  const row = await tx.restNeed.findFirst({
    where: { id: needId, pieceId: membership.pieceId },
    include: restNeedParts,
  });
  return row ? success(row) : failure({ kind: "not-found" });
}

/** What is to become of a need; null when it is so already. */
export interface NeedStep {
  readonly deeds: readonly RestNeedDeed[];
  readonly change: {
    readonly terms?: RestNeedTerms;
    readonly releasedById?: string | null;
    readonly releasedAt?: Date | null;
    readonly removedAt?: Date | null;
  };
}

/**
 * One step in the life of a need, the soloist's alone. What is so already is left as it is, so that asking twice does
 * nothing twice.
 *
 * @param step looks at the need as it is while the piece is held.
 */
export async function changeNeed(
  viewer: Viewer,
  pieceId: string,
  needId: string,
  step: (need: RestNeedRecord) => Result<NeedStep | null, StoreProblem>,
): Promise<Result<RestNeedRecord, StoreProblem>> {
  return inPiece(viewer, pieceId, "set-rests", async (work) => {
    const found = await findNeed(work, needId);
    if (!found.ok) return found;
    const need = toRestNeedRecord(found.value);
    const decided = step(need);
    if (!decided.ok) return decided;
    if (decided.value === null) return success(need);
    const { change, deeds } = decided.value;
    const data: Prisma.RestNeedUncheckedUpdateInput = { ...change, changedAt: now() };
    await work.tx.restNeed.update({ where: { id: needId }, data });
    for (const what of deeds) await recordDeed(work, needId, what, change.terms ?? need.terms);
    const changed = await findNeed(work, needId);
    return changed.ok ? success(toRestNeedRecord(changed.value)) : changed;
  });
}

const inRow = { "held again": "held_again", "brought back": "brought_back" } as const;

/** Writes what was done to a need to its history and to the trail, and tells whoever has the piece open. */
export async function recordDeed(
  work: PieceChangeWork,
  needId: string,
  what: RestNeedDeed,
  terms: RestNeedTerms,
): Promise<void> {
  const { userId } = work.membership;
  const deed = what === "held again" || what === "brought back" ? inRow[what] : what;
  await work.tx.restNeedEvent.create({
    data: { needId, userId, what: deed, terms: terms, at: now() },
  });
  await noteChange(work, {
    what: `rest need ${what}`,
    about: { needId, terms: terms },
    change: "rests",
  });
}

/** A need that was taken off is brought back first: nothing happens to it unseen. */
export function refuseRemoved({ removedAt }: RestNeedRecord): Result<null, StoreProblem> {
  if (removedAt === null) return success(null);
  const sentence = "This rest was taken off the list. Bring it back first.";
  return failure({ kind: "conflict", sentence });
}
