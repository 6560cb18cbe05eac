import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { inProgramme, noteProgramme } from "./in-programme";

const removeSchema = z.object({ programmeId: z.string().max(100) });

/** Takes a programme off the lists; its performances stay with their pieces, and it can be brought back. */
export async function removeProgramme(viewer: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  return setRemoved(viewer, input, true);
}

/** Brings back a programme as it stood. */
export async function restoreProgramme(viewer: Viewer, input: unknown): Promise<Result<null, StoreProblem>> {
  return setRemoved(viewer, input, false);
}

async function setRemoved(
  viewer: Viewer,
  input: unknown,
  isRemoved: boolean,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(removeSchema, input);
  if (!asked.ok) return asked;
  return inProgramme(viewer, asked.value.programmeId, async (work) => {
    const { tx, before } = work;
    if ((before.removedAt !== null) === isRemoved) return success(null);
    await tx.programme.update({
      where: { id: before.id },
      data: { removedAt: isRemoved ? now() : null },
    });
    await noteProgramme(work, isRemoved ? "programme taken off" : "programme brought back");
    return success(null);
  });
}
