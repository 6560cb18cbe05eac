"use client";

import { useMemo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { HandsDesk } from "@/app/_data/desk/hands-desk";
import { useAnswer } from "@/app/_study/use-answer";
import { useRoomHere } from "../../_components/room-provider";
import { PracticePanel } from "../_practice/practice-panel";
import { VoicingHints } from "../_practice/voicing-hints";

/** Practising up to tempo, and how to sound like the orchestra: under everything else, for the whole piece. */
export function PracticeHere({
  desk,
  handsDesk,
  mine,
  isReady,
  className,
}: {
  desk: Desk;
  handsDesk: HandsDesk;
  mine: NonNullable<HandsDesk["mine"]>;
  /** What stands over it is on the screen: then the piece is weighed. */
  isReady: boolean;
  className?: string;
}) {
  const { cues } = useRoomHere();
  const { value } = useAnswer(isReady ? { kind: "practise", question: { hands: mine.profile } } : null);
  const instruments = useMemo(() => [...new Set(cues.map(({ text }) => text))], [cues]);
  // Also what only the pianist sees: it is what they play.
  const rewrites = useMemo(
    () =>
      handsDesk.rewrites.filter((one) => one.takenOffAt === null && !one.isStale).map(({ terms }) => terms),
    [handsDesk],
  );
  return (
    <div className={className} id="practice">
      {value && (
        <PracticePanel
          pieceId={desk.pieceId}
          userId={desk.me.userId}
          sourceHash={desk.sourceHash}
          passages={value}
          entries={mine.practice}
          performance={handsDesk.performance}
          labelOf={(barIndex) => desk.bars[barIndex]?.label ?? ""}
          rewrites={rewrites}
        />
      )}
      <VoicingHints
        pieceId={desk.pieceId}
        instruments={instruments}
        hints={handsDesk.hints}
        mayWrite={desk.may.propose}
      />
    </div>
  );
}
