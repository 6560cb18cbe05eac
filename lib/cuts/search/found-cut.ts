import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import type { Seconds } from "@/lib/score/seconds";
import type { JoinAssessment } from "../join/assess-join";
import type { JoinGrade } from "../join/join-row";

/** A cut that could be made, with what it saves and what speaks for and against it. */
export interface FoundCut extends CutSpan {
  readonly from: Position;
  readonly to: Position;
  readonly grade: JoinGrade;
  /** For ranking and planning: 0 is best; from 1 on the join is rough. Never shown to people. */
  readonly cost: number;
  /** Short sentences, the most telling first. */
  readonly reasons: readonly string[];
  /** By which a performance becomes shorter, each time the cut is passed. */
  readonly savedSeconds: Seconds;
  readonly assessment: JoinAssessment;
  /** Cuts that come to the same: a beat or two aside, or the same seam further along a repeated pattern. */
  readonly alsoAt: readonly CutSpan[];
}
