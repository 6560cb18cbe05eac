"use client";

import { type ReactNode, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SayProblem } from "@/app/_ui/say";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { restorePerformanceAction } from "@/app/(desk)/pieces/[pieceId]/actions/restore-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./performance-list.module.css";
import { PerformanceMore } from "./performance-more";
import { RealTimeDialog } from "./real-time-dialog";
import { isUpcoming, sayDaysUntil, sayOccasion, sayTimes } from "./say-performance";

/** Performances, one under the other: when, what, which edition, how long. Those that were taken off stand folded below. */
export function PerformanceList({
  performances,
  removed = [],
  mayLog,
  lastEditionOf,
  now,
  pieceOf,
}: {
  performances: readonly PerformanceRecord[];
  /** Those that were taken off. */
  removed?: readonly PerformanceRecord[];
  mayLog: (performance: PerformanceRecord) => boolean;
  lastEditionOf: (performance: PerformanceRecord) => number;
  now: string;
  /** Which piece it was, where the list is of several. */
  pieceOf?: (performance: PerformanceRecord) => ReactNode;
}) {
  const [timed, setTimed] = useState<PerformanceRecord | null>(null);
  const today = now.slice(0, 10);
  return (
    <>
      <ol className={styles.list}>
        {performances.map((performance) => (
          <li key={performance.id} aria-labelledby={`performance-${performance.id}`}>
            <time dateTime={performance.on}>
              {sayShortDay(performance.on)}
              <small>{performance.on.slice(0, 4)}</small>
            </time>
            <div className={styles.what}>
              <h3 id={`performance-${performance.id}`}>{performance.name}</h3>
              {pieceOf && <p>{pieceOf(performance)}</p>}
              <p className={styles.quiet}>{sayOccasion(performance)}</p>
              {performance.result && <p className={styles.result}>{performance.result}</p>}
              <p className={styles.foot}>
                <EditionStamp number={performance.editionNumber} />
                {performance.on <= today && performance.realSeconds === null && mayLog(performance) && (
                  <Button kind="bare" small onClick={() => setTimed(performance)}>
                    Enter the real time
                  </Button>
                )}
              </p>
              {performance.remarks && <p className={styles.remarks}>{performance.remarks}</p>}
            </div>
            <Times performance={performance} today={today} />
            <details className={styles.details}>
              <summary>{performance.sections ? "Sections and more" : "More"}</summary>
              <PerformanceMore
                performance={performance}
                lastEdition={lastEditionOf(performance)}
                mayLog={mayLog(performance)}
                now={now}
              />
            </details>
          </li>
        ))}
      </ol>
      {removed.length > 0 && (
        <details className={styles.removed}>
          <summary>Taken off ({removed.length})</summary>
          <ul>
            {removed.map((performance) => (
              <Removed key={performance.id} performance={performance} mayLog={mayLog(performance)} />
            ))}
          </ul>
        </details>
      )}
      {timed && <RealTimeDialog performance={timed} onClose={() => setTimed(null)} />}
    </>
  );
}

function Removed({ performance, mayLog }: { performance: PerformanceRecord; mayLog: boolean }) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const { id, pieceId, name, on } = performance;
  const bringBack = async () => {
    const done = await run(restorePerformanceAction, { pieceId, performanceId: id });
    if (done.ok) announce(`Brought back: ${name}.`);
  };
  return (
    <li>
      <span>
        {sayShortDay(on)} {on.slice(0, 4)}, {name}
      </span>
      {mayLog && (
        <Button small disabled={isBusy} onClick={bringBack}>
          Bring it back
        </Button>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
    </li>
  );
}

function Times({ performance, today }: { performance: PerformanceRecord; today: string }) {
  const { time, against } = sayTimes(performance);
  const isPlanned = performance.realSeconds === null;
  return (
    <p className={styles.times}>
      <b data-planned={isPlanned || undefined}>{time}</b>
      {isUpcoming(performance, today) && <span>{sayDaysUntil(performance.on, today)}</span>}
      {against.map((words) => (
        <span key={words}>{words}</span>
      ))}
    </p>
  );
}
