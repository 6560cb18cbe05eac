"use client";

import { useMemo } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import type { BreathDesk } from "@/app/_data/desk/read-breath";
import { useAnswer } from "@/app/_study/use-answer";
import type { BreathReport } from "@/lib/breath/assess-breath";
import type { Breath } from "@/lib/room/breath";
import { askBreath, cutsWith, drawnCuts, livingNeeds } from "./breath-question";
import { layRestRows, type RestRow } from "./rest-rows";

export interface BreathFindings {
  /** Null while it is worked out, and without a solo part. */
  readonly report: BreathReport | null;
  readonly rows: readonly RestRow[] | null;
  /** The cuts that are made in it. */
  readonly cuts: readonly DeskCut[];
  readonly problem: string | null;
}

/**
 * Breath and rest with the agreed cuts, or with an open proposal beside them, worked out anew whenever a breath, a need
 * or a cut changes.
 *
 * @param withCut the open proposal that is looked at; null for the agreed cuts alone.
 */
export function useBreathReport(
  desk: Desk,
  breath: BreathDesk,
  breaths: readonly Breath[],
  withCut: DeskCut | null,
): BreathFindings {
  const open = useMemo(() => drawnCuts(desk, "open"), [desk]);
  const cuts = useMemo(() => cutsWith(desk, withCut ? [withCut] : []), [desk, withCut]);
  const question = useMemo(() => askBreath(desk, breath, breaths, cuts), [desk, breath, breaths, cuts]);
  const made = useAnswer({ kind: "breathe", question });
  const hasOpen = withCut === null && open.length > 0;
  const openQuestion = useMemo(
    () => (hasOpen ? askBreath(desk, breath, breaths, cutsWith(desk, open)) : null),
    [hasOpen, desk, breath, breaths, open],
  );
  const other = useAnswer(openQuestion && { kind: "breathe", question: openQuestion });
  const rows = useMemo(
    () =>
      made.value &&
      layRestRows({
        ...{ desk, needs: livingNeeds(breath.needs), made: made.value, madeCuts: cuts },
        ...{ open: hasOpen ? other.value : null, openCuts: open },
      }),
    [made.value, other.value, desk, breath.needs, cuts, open, hasOpen],
  );
  return { report: made.value?.after ?? null, rows, cuts, problem: made.problem };
}
