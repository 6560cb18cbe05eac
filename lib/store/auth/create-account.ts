import { failure, type Result, success } from "@/lib/score/result";
import { type Database, database } from "../database";
import { parseInput } from "../parse-input";
import type { StoreProblem } from "../store-problem";
import { type NewAccount, newAccountSchema } from "./account-schema";
import { hashPassword } from "./password";
import { takeTry } from "./rate-limit";
import type { SignedIn } from "./sign-in";

const taken: StoreProblem = {
  kind: "conflict",
  sentence: "There is already an account with this e-mail. Sign in with it.",
};

/**
 * Opens an account. The e-mail is not verified: an address is a name to sign in with and where news of one's pieces
 * go, and grants nothing by itself; pieces are joined by invitation links only.
 *
 * @param address network address of the client, for the limit.
 * @returns "conflict" when the e-mail has an account already, which a form for new accounts cannot hide.
 */
export async function createAccount(
  input: unknown,
  address: string,
): Promise<Result<SignedIn, StoreProblem>> {
  const limit = await takeTry("newAccountFromAddress", address);
  if (!limit.ok) return limit;
  const account = parseInput(newAccountSchema, input);
  if (!account.ok) return account;
  return insertAccount(account.value);
}

/** Stores a checked account, inside the caller's transaction when `db` is one. */
export async function insertAccount(
  account: NewAccount,
  db: Database = database(),
): Promise<Result<SignedIn, StoreProblem>> {
  const passwordHash = await hashPassword(account.password);
  const created = await db.user.createManyAndReturn({
    data: [{ name: account.name, email: account.email, passwordHash }],
    skipDuplicates: true,
  });
  const [user] = created;
  return user ? success({ userId: user.id, name: user.name }) : failure(taken);
}
