import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const wantsDigestSchema = z.object({ wantsDigest: z.boolean() });

/** Whether the viewer is told by e-mail of what happens in their pieces while they are away. */
export async function setWantsDigest(viewer: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(wantsDigestSchema, input);
  if (!asked.ok) return asked;
  await database().user.update({ where: { id: viewer.userId }, data: asked.value });
  return success(null);
}

/** Whether they are. */
export async function readWantsDigest(viewer: Viewer): Promise<boolean> {
  const { wantsDigest } = await database().user.findUniqueOrThrow({
    where: { id: viewer.userId },
    select: { wantsDigest: true },
  });
  return wantsDigest;
}
