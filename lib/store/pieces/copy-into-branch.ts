import { randomUUID } from "node:crypto";
import { Prisma } from "@/generated/prisma/client";
import type { EditionContent } from "@/lib/edition/edition-content";
import { now } from "../clock";
import { findMainSource, toJson } from "./score-of-source";

interface BranchPlan {
  readonly name: string;
  readonly limitSeconds: number | null;
  readonly rootId: string;
  /** The edition it begins with: parts and tempi are as they are there. Null: as they are in the piece now. */
  readonly start: { readonly id: string; readonly content: EditionContent } | null;
}

/**
 * Writes a new piece of the same music: sources, parts, tempi, players and coach, needed rests. What was said, proposed,
 * agreed and frozen stays with the piece it was said in.
 *
 * @returns its id.
 */
export async function copyIntoBranch(
  tx: Prisma.TransactionClient,
  pieceId: string,
  plan: BranchPlan,
): Promise<string> {
  const { start } = plan;
  const piece = await tx.piece.findUniqueOrThrow({ where: { id: pieceId } });
  const { title, movement, composer, soloInstrument, longTuttiBars } = piece;
  const branch = await tx.piece.create({
    data: {
      ...{ title, movement, composer, soloInstrument, longTuttiBars },
      limitSeconds: plan.limitSeconds,
      tempo: start?.content.tempo ?? (piece.tempo as Prisma.InputJsonValue),
      ...{ branchOfId: plan.rootId, branchName: plan.name, branchStartId: start?.id ?? null },
      ...{ createdAt: now(), changedAt: now() },
    },
  });
  await copySources(tx, pieceId, branch.id, start?.content.partRoles ?? null);
  await copyMembers(tx, pieceId, branch.id);
  await copyRestNeeds(tx, pieceId, branch.id);
  return branch.id;
}

/** The reduction as it is used now, and the newest full score beside it. The bytes are copied inside the database. */
async function copySources(
  tx: Prisma.TransactionClient,
  pieceId: string,
  branchId: string,
  partRoles: EditionContent["partRoles"] | null,
): Promise<void> {
  const main = await findMainSource(pieceId, tx);
  const full = await tx.source.findFirst({
    where: { pieceId, kind: "full_score" },
    orderBy: { createdAt: "desc" },
  });
  for (const source of full ? [main, full] : [main]) {
    const { id: _id, pieceId: _pieceId, ...same } = source;
    const id = randomUUID();
    const roles = source === main ? toJson(partRoles ?? main.partRoles) : (full?.partRoles ?? {});
    await tx.source.create({
      data: { ...same, id, pieceId: branchId, partRoles: roles as Prisma.InputJsonValue },
    });
    await tx.$executeRaw`
      INSERT INTO "SourceBytes" ("sourceId", "bytes")
      SELECT ${id}, "bytes" FROM "SourceBytes" WHERE "sourceId" = ${source.id}`;
  }
}

/** Readers are not taken along: who reads on one occasion is not asked to another. */
async function copyMembers(tx: Prisma.TransactionClient, pieceId: string, branchId: string): Promise<void> {
  const members = await tx.member.findMany({
    where: { pieceId, removedAt: null, role: { not: "reader" } },
    orderBy: { joinedAt: "asc" },
  });
  const first = now().getTime();
  await tx.member.createMany({
    data: members.map(({ userId, role, breath }, index) => ({
      ...{ pieceId: branchId, userId, role, breath: breath ?? Prisma.DbNull },
      // In the order in which they joined the piece.
      joinedAt: new Date(first + index),
    })),
  });
}

/** The rests that the soloist needs, as the soloist noted them, with who noted and who let go. */
async function copyRestNeeds(tx: Prisma.TransactionClient, pieceId: string, branchId: string): Promise<void> {
  const needs = await tx.restNeed.findMany({
    where: { pieceId, removedAt: null },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
  });
  for (const need of needs) {
    const { terms: stored, notedById, createdAt, changedAt, releasedById, releasedAt } = need;
    const terms = stored as Prisma.InputJsonValue;
    const letGo =
      releasedById && releasedAt
        ? [{ userId: releasedById, what: "released" as const, terms, at: releasedAt }]
        : [];
    await tx.restNeed.create({
      data: {
        ...{ pieceId: branchId, notedById, terms, createdAt, changedAt, releasedById, releasedAt },
        events: { create: [{ userId: notedById, what: "noted", terms, at: createdAt }, ...letGo] },
      },
    });
  }
}
