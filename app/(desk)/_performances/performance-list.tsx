"use client";

import { type ReactNode, useState } from "react";
import { Button } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { sayShortDay } from "@/app/_ui/say-short-day";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./performance-list.module.css";
import { RealTimeDialog } from "./real-time-dialog";
import { isUpcoming, sayDaysUntil, sayOccasion, sayTimes } from "./say-performance";

/** Performances, one under the other: when, what, which edition, how long. */
export function PerformanceList({
  performances,
  mayLog,
  now,
  pieceOf,
}: {
  performances: readonly PerformanceRecord[];
  mayLog: (performance: PerformanceRecord) => boolean;
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
          <li key={performance.id}>
            <time dateTime={performance.on}>
              {sayShortDay(performance.on)}
              <small>{performance.on.slice(0, 4)}</small>
            </time>
            <div className={styles.what}>
              <h3>{performance.name}</h3>
              {pieceOf && <p>{pieceOf(performance)}</p>}
              <p className={styles.quiet}>{sayOccasion(performance)}</p>
              <p className={styles.foot}>
                <EditionStamp number={performance.editionNumber} />
                {performance.on <= today && mayLog(performance) && (
                  <Button kind="bare" small onClick={() => setTimed(performance)}>
                    {performance.realSeconds === null ? "Enter the real time" : "Correct the time"}
                  </Button>
                )}
              </p>
              {performance.remarks && <p className={styles.remarks}>{performance.remarks}</p>}
            </div>
            <Times performance={performance} today={today} />
          </li>
        ))}
      </ol>
      {timed && <RealTimeDialog performance={timed} onClose={() => setTimed(null)} />}
    </>
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
