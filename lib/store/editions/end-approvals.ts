import type { Prisma } from "@/generated/prisma/client";
import { now } from "../clock";

/** The content of the working edition changed: whoever had agreed to the old one is asked again. */
export async function endApprovals(tx: Prisma.TransactionClient, pieceId: string): Promise<void> {
  await tx.approval.updateMany({ where: { pieceId, endedAt: null }, data: { endedAt: now() } });
}
