"use client";

import { useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { findLastPlayed, sayLastPlayed } from "./last-played";
import { LogDialog, type LoggablePiece } from "./log-dialog";
import { PerformanceList } from "./performance-list";
import styles from "./piece-performances.module.css";

/** Where this piece was played and is going to be, and with which edition. */
export function PiecePerformances({
  piece,
  mayLog,
  performances,
  removed,
  now,
}: {
  piece: LoggablePiece;
  mayLog: boolean;
  performances: readonly PerformanceRecord[];
  /** Those that were taken off. */
  removed: readonly PerformanceRecord[];
  now: string;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const canLog = mayLog && piece.lastEdition > 0;
  const last = findLastPlayed(performances, now.slice(0, 10));
  return (
    <Sheet className={styles.sheet} aria-labelledby="performed-title">
      <header className={styles.head}>
        <h2 id="performed-title">Performances</h2>
        {canLog && (
          <p className={styles.deeds}>
            <ButtonLink small kind="bare" href={`/pieces/${piece.id}/stopwatch`}>
              <Icon name="clock" small /> Stopwatch
            </ButtonLink>
            <Button small onClick={() => setIsOpen(true)}>
              <Icon name="plus" small /> Log a performance
            </Button>
          </p>
        )}
      </header>
      {last && <p className={styles.last}>{capital(sayLastPlayed(last, new Date(now)))}.</p>}
      {performances.length === 0 && (
        <p className={styles.none}>
          {piece.lastEdition === 0
            ? "A performance belongs to an edition: freeze the first one, then log where you play it."
            : "Nothing is logged yet."}
        </p>
      )}
      <PerformanceList
        performances={performances}
        removed={removed}
        mayLog={() => mayLog}
        lastEditionOf={() => piece.lastEdition}
        now={now}
      />
      {isOpen && <LogDialog pieces={[piece]} today={now.slice(0, 10)} onClose={() => setIsOpen(false)} />}
    </Sheet>
  );
}
