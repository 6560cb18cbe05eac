"use server";

import { type ActionResult, toActionResult } from "@/app/_data/action-result";
import { clientAddress } from "@/app/_data/client-address";
import { giveSession } from "@/app/_data/session-cookie";
import { type SignedIn, signIn } from "@/lib/store/auth/sign-in";

/** Signs in with `{ email, password }`. */
export async function signInAction(input: unknown): Promise<ActionResult<SignedIn>> {
  const result = await signIn(input, await clientAddress());
  if (result.ok) await giveSession(result.value.userId);
  return toActionResult(result);
}
