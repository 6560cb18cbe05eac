import { z } from "zod";
import { partRolesSchema } from "@/lib/edition/edition-content";
import { failure, type Result, success } from "@/lib/score/result";
import { endApprovals } from "../editions/end-approvals";
import { inPiece, noteChange } from "../in-piece";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { findMainSource, toJson } from "./score-of-source";

const setPartRolesSchema = z.object({ partRoles: partRolesSchema });

/**
 * Says what each part is for; parts that are not named keep their role. Parts are content of an edition, so
 * whoever had agreed to freeze it is asked again.
 */
export async function setPartRoles(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(setPartRolesSchema, input);
  if (!asked.ok) return asked;
  return inPiece(viewer, pieceId, "set-parts", async (work) => {
    const source = await findMainSource(pieceId, work.tx);
    const unknown = Object.keys(asked.value.partRoles).find((id) => !Object.hasOwn(source.partRoles, id));
    if (unknown !== undefined)
      return failure({ kind: "invalid-input", sentence: `The source has no part “${unknown}”.` });
    const partRoles = { ...source.partRoles, ...asked.value.partRoles };
    const soloParts = Object.values(partRoles).filter((role) => role === "solo").length;
    if (soloParts > 1)
      return failure({
        kind: "invalid-input",
        sentence: "Only one part can be the soloist’s. Choose which.",
      });
    const isSame = Object.entries(partRoles).every(([id, role]) => source.partRoles[id] === role);
    if (isSame) return success(null);
    await work.tx.source.update({ where: { id: source.id }, data: { partRoles: toJson(partRoles) } });
    await endApprovals(work.tx, pieceId);
    await noteChange(work, { what: "parts set", about: toJson(partRoles), change: "settings" });
    return success(null);
  });
}
