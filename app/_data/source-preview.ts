import type { StripPiece } from "@/app/_ui/strip/strip-piece";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { InspectReport } from "@/lib/inspect/inspect-report";
import { findSoloPart } from "@/lib/score/find-part";
import type { PreviewedSource } from "@/lib/store/pieces/preview-source";
import { defaultLongBars } from "@/lib/tutti/find-tuttis";
import { layInTime } from "./desk/in-time";
import { listTempi, stripOf } from "./desk/strip-of";

/** What was read from a file, with its strip: what a player checks before it becomes a piece. */
export interface SourcePreview extends InspectReport {
  readonly soloName: string | null;
  readonly strip: StripPiece;
}

export function toSourcePreview({ report, score }: PreviewedSource): SourcePreview {
  const soloName = findSoloPart(score)?.name ?? null;
  const inTime = layInTime(score, printedTempo, defaultLongBars);
  return { ...report, soloName, strip: stripOf(inTime, soloName ?? "Solo", listTempi(inTime, [])) };
}
