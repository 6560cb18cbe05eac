"use server";

import { type ActionResult, toActionResult } from "@/app/_data/action-result";
import { clientAddress } from "@/app/_data/client-address";
import { giveSession } from "@/app/_data/session-cookie";
import { createAccount } from "@/lib/store/auth/create-account";
import type { SignedIn } from "@/lib/store/auth/sign-in";

/** Opens an account with `{ name, email, password }` and signs in to it. */
export async function createAccountAction(input: unknown): Promise<ActionResult<SignedIn>> {
  const result = await createAccount(input, await clientAddress());
  if (result.ok) await giveSession(result.value.userId);
  return toActionResult(result);
}
