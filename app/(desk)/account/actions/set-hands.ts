"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { asViewer } from "@/app/_data/as-viewer";
import { setHands } from "@/lib/store/hands/set-hands";

/** Says what lies under one's own hands: `{ profile }`, null for the usual ones. */
export async function setHandsAction(input: unknown): Promise<ActionResult<null>> {
  return asViewer(input, setHands);
}
