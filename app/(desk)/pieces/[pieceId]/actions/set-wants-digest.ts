"use server";

import { type ActionResult, signedOut, toActionResult } from "@/app/_data/action-result";
import { readViewer } from "@/app/_data/viewer";
import { setWantsDigest } from "@/lib/store/digest/set-wants-digest";

/** Turns the viewer's own messages on or off, for all their pieces: `{ wantsDigest }`. */
export async function setWantsDigestAction(input: unknown): Promise<ActionResult<null>> {
  const viewer = await readViewer();
  return viewer ? toActionResult(await setWantsDigest(viewer, input)) : signedOut;
}
