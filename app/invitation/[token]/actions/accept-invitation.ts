"use server";

import { z } from "zod";
import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { readViewer } from "@/app/_data/viewer";
import { type AcceptedInvitation, acceptInvitation } from "@/lib/store/invitations/accept-invitation";
import { parseInput } from "@/lib/store/parse-input";

const tokenSchema = z.object({ token: z.string().min(1).max(200) });

/** Joins the piece of an invitation with the account one is signed in to: `{ token }`. */
export async function acceptInvitationAction(input: unknown): Promise<ActionResult<AcceptedInvitation>> {
  const viewer = await readViewer();
  if (!viewer) return signedOut;
  const asked = parseInput(tokenSchema, input);
  return toActionResult(asked.ok ? await acceptInvitation(viewer, asked.value.token) : asked);
}
