"use server";

import { z } from "zod";
import { type ActionResult, toActionResult } from "@/app/_data/action-result";
import { clientAddress } from "@/app/_data/client-address";
import { giveSession } from "@/app/_data/session-cookie";
import { type AcceptedInvitation, joinWithAccount } from "@/lib/store/invitations/accept-invitation";
import { parseInput } from "@/lib/store/parse-input";

const tokenSchema = z.object({ token: z.string().min(1).max(200) });

/** Opens an account, joins the piece of an invitation with it, and signs in: `{ token, name, email, password }`. */
export async function joinWithAccountAction(input: unknown): Promise<ActionResult<AcceptedInvitation>> {
  const asked = parseInput(tokenSchema, input);
  if (!asked.ok) return toActionResult(asked);
  const joined = await joinWithAccount(input, asked.value.token, await clientAddress());
  if (joined.ok) await giveSession(joined.value.userId);
  return toActionResult(joined);
}
