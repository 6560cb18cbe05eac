import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findOccasions } from "./list-occasions";
import { isSameOccasion, occasionNameSchema } from "./occasion-name";

const nameOccasionSchema = z.object({
  name: occasionNameSchema,
  /** What was on the screen of whoever names it; null while it had no name. */
  stood: z.string().max(400).nullable(),
});

/**
 * Says what a piece is prepared for, or says it otherwise. What it was called before stays in the trail, and editions,
 * performances and everything else stay where they are: only the name changes.
 *
 * @returns "stale-terms" when it was named otherwise meanwhile, "conflict" when another occasion of the same music has that
 * name already, as far as the viewer belongs to it.
 */
export async function nameOccasion(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<{ name: string }, StoreProblem>> {
  const asked = parseInput(nameOccasionSchema, input);
  if (!asked.ok) return asked;
  const { name, stood } = asked.value;
  return inPiece(viewer, pieceId, "branch", async (work) => {
    const occasions = await findOccasions(viewer, pieceId, work.tx);
    const before = occasions.find((occasion) => occasion.pieceId === pieceId)?.name ?? null;
    if (before === name) return success({ name });
    if (before !== stood) return failure(namedMeanwhile(before));
    const taken = occasions.find(
      (other) => other.pieceId !== pieceId && other.name !== null && isSameOccasion(other.name, name),
    );
    if (taken) return failure(isTaken(taken.name ?? ""));
    await work.tx.piece.update({ where: { id: pieceId }, data: { branchName: name } });
    await noteChange(work, { what: "occasion named", about: { before, after: name }, change: "settings" });
    return success({ name });
  });
}

function namedMeanwhile(now: string | null): StoreProblem {
  const sentence = `Somebody named it meanwhile: “${now ?? ""}”. Look at that, and change it again.`;
  return { kind: "stale-terms", sentence };
}

function isTaken(name: string): StoreProblem {
  return {
    kind: "conflict",
    sentence: `There is one for “${name}” already. Give this one another name.`,
  };
}
