"use client";

import { useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button, ButtonLink, buttonClass } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { removePerformanceAction } from "@/app/(desk)/pieces/[pieceId]/actions/remove-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { ChangeDialog } from "./change-dialog";
import styles from "./performance-more.module.css";
import { PerformancePast } from "./performance-past";
import { SectionTimes } from "./section-times";

/** What is behind one line of the list: times of its sections, changing it, a calendar file, its history. */
export function PerformanceMore({
  performance,
  lastEdition,
  mayLog,
  now,
}: {
  performance: PerformanceRecord;
  lastEdition: number;
  mayLog: boolean;
  now: string;
}) {
  const [isChanging, setIsChanging] = useState(false);
  const [showsPast, setShowsPast] = useState(false);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { id, pieceId, sections, limitSeconds, editionNumber } = performance;
  const today = now.slice(0, 10);
  const takeOff = async () => {
    const done = await run(removePerformanceAction, { pieceId, performanceId: id });
    if (done.ok) announce("Taken off. It can be brought back.");
  };
  return (
    <div className={styles.more}>
      {sections && (
        <SectionTimes
          sections={sections.sections}
          limitSeconds={limitSeconds}
          byDeviceClock={sections.byDeviceClock}
          take={mayLog ? { pieceId, performanceId: id } : null}
        />
      )}
      <p className={styles.buttons}>
        {mayLog && (
          <Button small onClick={() => setIsChanging(true)}>
            <Icon name="pencil" small /> Change
          </Button>
        )}
        {mayLog && performance.on <= today && (
          <ButtonLink small href={`/pieces/${pieceId}/stopwatch?performance=${id}&edition=${editionNumber}`}>
            <Icon name="clock" small /> Stopwatch
          </ButtonLink>
        )}
        <a
          className={buttonClass({ small: true })}
          href={`/api/pieces/${pieceId}/performances/${id}/calendar.ics`}
          download
        >
          <Icon name="download" small /> For a calendar
        </a>
        <Button small kind="bare" aria-expanded={showsPast} onClick={() => setShowsPast(!showsPast)}>
          {showsPast ? "Hide its history" : "Its history"}
        </Button>
        {mayLog && (
          <Button small kind="bare" disabled={isBusy} onClick={takeOff}>
            Take it off
          </Button>
        )}
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
      {showsPast && <PerformancePast performance={performance} now={now} />}
      {isChanging && (
        <ChangeDialog
          performance={performance}
          lastEdition={lastEdition}
          today={today}
          onClose={() => setIsChanging(false)}
        />
      )}
    </div>
  );
}
