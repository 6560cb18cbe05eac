import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { Result } from "@/lib/score/result";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { changeEntry } from "./change-entry";

/** Brings an entry of one's log back that was taken off. */
export function restorePractice(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<PracticeRecord, StoreProblem>> {
  return changeEntry(viewer, pieceId, input, null);
}
