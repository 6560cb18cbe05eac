import { assignRoles } from "@/lib/score/assign-roles";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { toCutSpan } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import { toTempoSettings } from "./tempo-terms";

/**
 * How long an edition runs: its cuts left out, in the duo's own tempi.
 *
 * @param score of the source that the edition names.
 */
export function timeEdition(score: Score, content: EditionContent): RunningTime {
  const inRoles = assignRoles(score, content.partRoles);
  const order = leaveOut(inRoles, findPerformedOrder(inRoles), content.cuts.map(toCutSpan));
  return findRunningTime(inRoles, order, readTempoMap(inRoles, toTempoSettings(content.tempo)));
}
