import { z } from "zod";
import { Prisma } from "@/generated/prisma/client";
import { handsProfileSchema } from "@/lib/hands/hands-profile";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const setHandsSchema = z.object({
  /** Null goes back to the usual hands. */
  profile: handsProfileSchema.nullable(),
});

/** Says what lies under the viewer's hands, in every piece. No trail is kept of it: it is nobody else's. */
export async function setHands({ userId }: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setHandsSchema, input);
  if (!asked.ok) return asked;
  const { profile } = asked.value;
  await database().user.update({
    where: { id: userId },
    data: { hands: profile ?? Prisma.DbNull, handsChangedAt: profile ? now() : null },
  });
  return success(null);
}
