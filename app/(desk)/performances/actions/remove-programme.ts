"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { asViewer } from "@/app/_data/as-viewer";
import { removeProgramme } from "@/lib/store/programmes/remove-programme";

/** Takes a programme off: `{ programmeId }`. */
export async function removeProgrammeAction(input: unknown): Promise<ActionResult<null>> {
  return asViewer(input, removeProgramme);
}
