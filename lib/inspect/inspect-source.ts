import type { ReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import { type Result, success } from "@/lib/score/result";
import type { InspectReport } from "./inspect-report";
import { inspectScore } from "./inspect-score";

/** Reads a MusicXML file or .mxl container and tells what is in it. */
export function inspectSource(bytes: Uint8Array): Result<InspectReport, ReadProblem> {
  const read = readScore(bytes);
  return read.ok ? success(inspectScore(read.value)) : read;
}
