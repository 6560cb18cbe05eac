import { createHash } from "node:crypto";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import { credentialsSchema } from "./account-schema";
import { isPassword } from "./password";
import { takeTry } from "./rate-limit";

export interface SignedIn {
  readonly userId: string;
  readonly name: string;
}

/**
 * Who these credentials belong to. Unknown e-mail and wrong password get the same answer after the same work,
 * and the limits count by what was typed, whether such an account exists or not.
 *
 * @param address network address of the client; the limits are by address and by account.
 */
export async function signIn(input: unknown, address: string): Promise<Result<SignedIn, StoreProblem>> {
  const fromAddress = await takeTry("signInFromAddress", address);
  if (!fromAddress.ok) return fromAddress;
  const credentials = parseInput(credentialsSchema, input);
  if (!credentials.ok) return credentials;
  const { email, password } = credentials.value;
  const toAccount = await takeTry("signInToAccount", createHash("sha256").update(email).digest("hex"));
  if (!toAccount.ok) return toAccount;
  const user = await database().user.findUnique({ where: { email, removedAt: null } });
  const matches = await isPassword(password, user?.passwordHash ?? null);
  return user && matches
    ? success({ userId: user.id, name: user.name })
    : failure({ kind: "sign-in-failed" });
}
