"use client";

import { useMemo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { HandsDesk } from "@/app/_data/desk/hands-desk";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { HintsHere } from "../_practice/hints-here";
import { PracticePanel } from "../_practice/practice-panel";

/** Practising up to tempo, and how to sound like the orchestra: under everything else, for the whole piece. */
export function PracticeHere({
  desk,
  handsDesk,
  passages,
  entries,
  className,
}: {
  desk: Desk;
  handsDesk: HandsDesk;
  /** Null while the piece is being weighed. */
  passages: readonly PracticePassage[] | null;
  entries: readonly PracticeRecord[];
  className?: string;
}) {
  // Also what only the pianist sees: it is what they play.
  const rewrites = useMemo(
    () =>
      handsDesk.rewrites.filter((one) => one.takenOffAt === null && !one.isStale).map(({ terms }) => terms),
    [handsDesk],
  );
  return (
    <div className={className} id="practice">
      {passages && (
        <PracticePanel
          pieceId={desk.pieceId}
          userId={desk.me.userId}
          sourceHash={desk.sourceHash}
          passages={passages}
          entries={entries}
          performance={handsDesk.performance}
          labelOf={(barIndex) => desk.bars[barIndex]?.label ?? ""}
          rewrites={rewrites}
        />
      )}
      <HintsHere pieceId={desk.pieceId} hints={handsDesk.hints} mayWrite={desk.may.propose} />
    </div>
  );
}
