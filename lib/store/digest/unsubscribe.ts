import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import type { StoreProblem } from "../store-problem";
import { readUnsubscribeToken } from "./unsubscribe-token";

/**
 * Turns off the messages of the person for whom a link was signed, whoever presses it: who holds the message may end
 * the messages.
 *
 * @returns "not-found" for a link that we did not sign; what is off already stays so.
 */
export async function unsubscribe(token: string, secret: string): Promise<Result<null, StoreProblem>> {
  const userId = readUnsubscribeToken(token, secret);
  if (userId === null) return failure({ kind: "not-found" });
  await database().user.updateMany({ where: { id: userId }, data: { wantsDigest: false } });
  return success(null);
}
