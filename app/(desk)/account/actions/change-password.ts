"use server";

import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { sessionToken } from "@/app/_data/session-cookie";
import { readViewer } from "@/app/_data/viewer";
import { changePassword } from "@/lib/store/account/change-password";

/** Another password, with the present one; other devices are signed out: `{ password, newPassword }`. */
export async function changePasswordAction(input: unknown): Promise<ActionResult<null>> {
  const viewer = await readViewer();
  if (!viewer) return signedOut;
  return toActionResult(await changePassword(viewer, input, await sessionToken()));
}
