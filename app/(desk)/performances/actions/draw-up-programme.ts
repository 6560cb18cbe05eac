"use server";

import type { ActionResult } from "@/app/_data/action-result";
import { asViewer } from "@/app/_data/as-viewer";
import { drawUpProgramme } from "@/lib/store/programmes/draw-up-programme";

/** Begins a programme of one’s own: `{ kind, name, on, startsAt, place, limitSeconds, stopsBetween, remarks }`. */
export async function drawUpProgrammeAction(input: unknown): Promise<ActionResult<{ programmeId: string }>> {
  return asViewer(input, drawUpProgramme);
}
