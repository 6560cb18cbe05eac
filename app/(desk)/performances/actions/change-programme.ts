"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { asViewer } from "@/app/_data/as-viewer";
import { changeProgramme } from "@/lib/store/programmes/change-programme";

/** Writes a programme anew: its head as `drawUpProgrammeAction` takes it, with `{ programmeId, revision, items }`. */
export async function changeProgrammeAction(input: unknown): Promise<ActionResult<null>> {
  return asViewer(input, changeProgramme);
}
