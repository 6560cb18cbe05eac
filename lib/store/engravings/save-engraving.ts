import { promisify } from "node:util";
import { gzip } from "node:zlib";
import type { Prisma } from "@/generated/prisma/client";
import type { ScreenEngraving } from "@/lib/engrave/screen-engraving";
import { database } from "../database";
import { type EngravingSummary, systemSummarySchema } from "./engraving-record";

const pack = promisify(gzip);

/** Kept engravings of a piece: every layout of the last few states of its cuts, and the editions that are read. */
const mostKept = 36;

/** Keeps an engraving, whole or not at all, so that a restart need not make it again. */
export async function saveEngraving(
  pieceId: string,
  key: string,
  { rendererVersion, systems }: ScreenEngraving,
): Promise<EngravingSummary> {
  const summaries = systems.map((system) => systemSummarySchema.parse(system));
  await keepPictures(pieceId, key, { rendererVersion, summary: summaries, systems });
  return { key, rendererVersion, systems: summaries };
}

export interface PicturesToKeep {
  readonly rendererVersion: string;
  /** What is told of the pictures without showing them. */
  readonly summary: Prisma.InputJsonValue;
  readonly systems: readonly { readonly index: number; readonly svg: string }[];
}

/** Keeps pictures under a key, packed, with what is told of them. What is kept under it already stays. */
export async function keepPictures(
  pieceId: string,
  key: string,
  { rendererVersion, summary, systems }: PicturesToKeep,
): Promise<void> {
  const pictures = await Promise.all(systems.map(({ svg }) => pack(svg)));
  await database().$transaction(async (tx) => {
    // Another process may have engraved the same meanwhile: then its pictures are these.
    const kept = await tx.engraving.createMany({
      data: [{ pieceId, key, rendererVersion, summary }],
      skipDuplicates: true,
    });
    if (kept.count === 0) return;
    await tx.engravedSystem.createMany({
      data: pictures.map((svg, at) => ({ pieceId, key, index: systems[at]?.index ?? at, svg })),
    });
    await tx.$executeRaw`
      DELETE FROM "Engraving" WHERE "pieceId" = ${pieceId} AND "key" NOT IN (
        SELECT "key" FROM "Engraving" WHERE "pieceId" = ${pieceId} ORDER BY "createdAt" DESC LIMIT ${mostKept})`;
  });
}
