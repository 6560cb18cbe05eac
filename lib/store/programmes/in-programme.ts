import type { Prisma } from "@/generated/prisma/client";
import { failure, type Result } from "@/lib/score/result";
import { now } from "../clock";
import { inTransaction } from "../in-transaction";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readProgramme } from "./read-programme";

export type StoredProgramme = Prisma.ProgrammeGetPayload<{ include: { items: true } }>;

/** A change to one programme under way: everything in it is stored together or not at all. */
export interface ProgrammeWork {
  readonly tx: Prisma.TransactionClient;
  readonly before: StoredProgramme;
  readonly viewer: Viewer;
}

/** Changes a programme of the viewer's own, whose row is held meanwhile. */
export async function inProgramme<T>(
  viewer: Viewer,
  programmeId: string,
  work: (change: ProgrammeWork) => Promise<Result<T, StoreProblem>>,
): Promise<Result<T, StoreProblem>> {
  const seen = await readProgramme(viewer, programmeId);
  if (!seen.ok) return seen;
  if (!seen.value.isMine) return failure(onlyItsOwner);
  return inTransaction(async (tx) => {
    await tx.$queryRaw`
      SELECT 1 AS held FROM "Programme" WHERE "id" = ${programmeId} AND "ownerId" = ${viewer.userId} FOR UPDATE`;
    const before = await tx.programme.findFirst({
      where: { id: programmeId, ownerId: viewer.userId },
      include: { items: { orderBy: { place: "asc" } } },
    });
    return before ? work({ tx, before, viewer }) : failure({ kind: "not-found" });
  });
}

const onlyItsOwner: StoreProblem = {
  kind: "not-allowed",
  sentence: "Only who drew up this programme changes it.",
};

/** Writes what stood there to the trail, whole: nothing that was written is lost. */
export async function noteProgramme({ tx, before, viewer }: ProgrammeWork, what: string): Promise<void> {
  const stood: Prisma.InputJsonObject = JSON.parse(JSON.stringify(before));
  const about = { programmeId: before.id, before: stood };
  await tx.auditEntry.create({ data: { userId: viewer.userId, what, about, at: now() } });
  await tx.programme.update({
    where: { id: before.id },
    data: { changedAt: now(), revision: { increment: 1 } },
  });
}
