import type { Prisma } from "@/generated/prisma/client";
import { partRolesSchema } from "@/lib/edition/edition-content";
import { readScore } from "@/lib/musicxml/read-score";
import { assignRoles } from "@/lib/score/assign-roles";
import type { PartRole } from "@/lib/score/part";
import type { ReadScore } from "@/lib/score/score";
import { type Database, database } from "../database";

/** Scores read lately, by the hash of their bytes: reading is pure, so they never grow stale. */
const lately = new Map<string, ReadScore>();
const mostKept = 12;

/** A stored source as a score, its parts in the roles given. */
export async function readSourceScore(
  source: { readonly id: string; readonly hash: string },
  partRoles: Readonly<Record<string, PartRole>>,
  db: Database = database(),
): Promise<ReadScore> {
  const read = lately.get(source.hash) ?? (await readStored(source.id, db));
  lately.delete(source.hash);
  lately.set(source.hash, read);
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
  return { score: assignRoles(read.score, partRoles), notices: read.notices };
}

async function readStored(sourceId: string, db: Database): Promise<ReadScore> {
  const { bytes } = await db.sourceBytes.findUniqueOrThrow({ where: { sourceId } });
  const read = readScore(bytes);
  // It was readable when it was accepted: only a change to the reader can get here.
  if (!read.ok) throw new Error(`the stored source ${sourceId} cannot be read: ${read.problem.kind}`);
  return read.value;
}

/** The source a piece is prepared from now. */
export async function findMainSource(pieceId: string, db: Database = database()) {
  const source = await db.source.findFirstOrThrow({
    where: { pieceId, kind: "reduction" },
    orderBy: { createdAt: "desc" },
  });
  return { ...source, partRoles: partRolesSchema.parse(source.partRoles) };
}

export type MainSource = Awaited<ReturnType<typeof findMainSource>>;

/** Part roles as the database takes them. */
export function toJson(value: Readonly<Record<string, PartRole>>): Prisma.InputJsonObject {
  return { ...value };
}
