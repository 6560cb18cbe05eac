import { failure, type Result, success } from "@/lib/score/result";
import { isPassword } from "../auth/password";
import { takeTry } from "../auth/rate-limit";
import { database } from "../database";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

const wrongPassword: StoreProblem = {
  kind: "not-allowed",
  sentence: "This is not your password. Nothing was changed.",
};

/** Asks the viewer for their password once more, before something that only they may do. */
export async function askPassword(viewer: Viewer, password: string): Promise<Result<null, StoreProblem>> {
  const limit = await takeTry("passwordByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const user = await database().user.findUnique({
    where: { id: viewer.userId, removedAt: null },
    select: { passwordHash: true },
  });
  if (!user) return failure({ kind: "not-found" });
  return (await isPassword(password, user.passwordHash)) ? success(null) : failure(wrongPassword);
}
