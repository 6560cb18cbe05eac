import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { inTransaction } from "../in-transaction";
import { parseInput } from "../parse-input";
import { occasionShape } from "../performances/occasion-schema";
import { toStoredDate, toStoredKind } from "../performances/performance-record";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

export const headShape = { ...occasionShape, stopsBetween: z.boolean().default(false) };

const drawUpSchema = z.object(headShape);

/** Begins an empty programme of the viewer's own. It is nobody else's until a piece of theirs is put on it. */
export async function drawUpProgramme(
  viewer: Viewer,
  input: unknown,
): Promise<Result<{ programmeId: string }, StoreProblem>> {
  const asked = parseInput(drawUpSchema, input);
  if (!asked.ok) return asked;
  const { kind, on, ...head } = asked.value;
  return inTransaction(async (tx) => {
    const { id } = await tx.programme.create({
      data: {
        ...{ ...head, kind: toStoredKind(kind), on: toStoredDate(on), ownerId: viewer.userId },
        ...{ createdAt: now(), changedAt: now() },
      },
    });
    await tx.auditEntry.create({
      data: { userId: viewer.userId, what: "programme drawn up", about: { programmeId: id }, at: now() },
    });
    return success({ programmeId: id });
  });
}
