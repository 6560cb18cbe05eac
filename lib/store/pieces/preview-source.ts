import type { InspectReport } from "@/lib/inspect/inspect-report";
import { inspectScore } from "@/lib/inspect/inspect-score";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { takeTry } from "../auth/rate-limit";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { readUpload, type UploadedFile } from "./create-piece";

/** What a file holds, before it becomes a piece. */
export interface PreviewedSource {
  readonly report: InspectReport;
  readonly score: Score;
}

/** Reads a file that may become a piece. Nothing is stored. */
export async function previewSource(
  viewer: Viewer,
  file: UploadedFile,
): Promise<Result<PreviewedSource, StoreProblem>> {
  const limit = await takeTry("previewByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const read = readUpload(file);
  if (!read.ok) return read;
  return success({ report: inspectScore(read.value), score: read.value.score });
}
