"use server";

import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { takeSession } from "@/app/_data/session-cookie";
import { readViewer } from "@/app/_data/viewer";
import { removeAccount } from "@/lib/store/account/remove-account";

/** Removes the viewer's account: `{ password, names }`. */
export async function removeAccountAction(input: unknown): Promise<ActionResult<null>> {
  const viewer = await readViewer();
  if (!viewer) return signedOut;
  const removed = await removeAccount(viewer, input);
  if (removed.ok) await takeSession();
  return toActionResult(removed);
}
