import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { Result } from "@/lib/score/result";
import { now } from "../clock";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeEntry } from "./change-entry";

/** Takes an entry off one's log. It can be brought back. */
export function removePractice(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PracticeRecord, StoreProblem>> {
  return changeEntry(viewer, pieceId, input, now());
}
