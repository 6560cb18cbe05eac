"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { asViewer } from "@/app/_data/as-viewer";
import { restoreProgramme } from "@/lib/store/programmes/remove-programme";

/** Brings a programme back: `{ programmeId }`. */
export async function restoreProgrammeAction(input: unknown): Promise<ActionResult<null>> {
  return asViewer(input, restoreProgramme);
}
