import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** One step in the life of a performance: who, when, and what stood there before. */
export interface PerformanceChange {
  readonly id: string;
  /** In the past tense, such as "performance changed". */
  readonly what: string;
  readonly by: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  /** Fields that differ → what stood there, and what stands there since. */
  readonly before: Readonly<Record<string, unknown>>;
  readonly after: Readonly<Record<string, unknown>>;
}

const askSchema = z.object({ performanceId: z.string().max(100) });
const aboutSchema = z.object({
  before: z.record(z.string(), z.unknown()).default({}),
  after: z.record(z.string(), z.unknown()).default({}),
});

/** Everything that was done to a performance since it was logged, the latest first: nothing that was written is lost. */
export async function listPerformanceChanges(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PerformanceChange[], StoreProblem>> {
  const asked = parseInput(askSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "read-performances");
  if (!membership.ok) return membership;
  const { performanceId } = asked.value;
  const isHere = await database().performance.count({ where: { id: performanceId, pieceId } });
  if (isHere === 0) return failure({ kind: "not-found" });
  const rows = await database().auditEntry.findMany({
    where: { pieceId, about: { path: ["performanceId"], equals: performanceId } },
    orderBy: [{ at: "desc" }, { id: "desc" }],
    include: { user: { select: { name: true } } },
  });
  return success(
    rows.map(({ id, what, at, about, user }) => {
      const { before, after } = aboutSchema.parse(about);
      return { id: `${id}`, what, at: at.toISOString(), by: user?.name ?? "", before, after };
    }),
  );
}
