import { z } from "zod";
import { type Result, success } from "@/lib/score/result";
import { newPasswordSchema } from "../auth/account-schema";
import { hashPassword } from "../auth/password";
import { hashToken } from "../auth/session";
import { database } from "../database";
import { notify } from "../notify";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { askPassword } from "./ask-password";

const changeSchema = z.object({
  password: z
    .string()
    .min(1, "Write your present password.")
    .max(200, "A password has at most 200 characters."),
  newPassword: newPasswordSchema,
});

/**
 * Another password from now on. Every other session of the person ends: whoever knew the old one is out.
 *
 * @param token of the session that stays; null when none does.
 */
export async function changePassword(
  viewer: Viewer,
  input: unknown,
  token: string | null,
): Promise<Result<null, StoreProblem>> {
  const asked = parseInput(changeSchema, input);
  if (!asked.ok) return asked;
  const known = await askPassword(viewer, asked.value.password);
  if (!known.ok) return known;
  const passwordHash = await hashPassword(asked.value.newPassword);
  const { userId } = viewer;
  const staying = token === null ? "" : hashToken(token);
  await database().$transaction(async (tx) => {
    await tx.user.update({ where: { id: userId }, data: { passwordHash } });
    const ended = await tx.session.findMany({
      where: { userId, NOT: { tokenHash: staying } },
      select: { tokenHash: true },
    });
    await tx.session.deleteMany({ where: { userId, NOT: { tokenHash: staying } } });
    for (const { tokenHash } of ended) await notify(tx, "session_ended", { userId, tokenHash });
  });
  return success(null);
}
