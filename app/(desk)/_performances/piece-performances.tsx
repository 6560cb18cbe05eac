"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { LogDialog, type LoggablePiece } from "./log-dialog";
import { PerformanceList } from "./performance-list";
import styles from "./piece-performances.module.css";

/** Where this piece was played and is going to be, and with which edition. */
export function PiecePerformances({
  piece,
  mayLog,
  performances,
  now,
}: {
  piece: LoggablePiece;
  mayLog: boolean;
  performances: readonly PerformanceRecord[];
  now: string;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const canLog = mayLog && piece.lastEdition > 0;
  return (
    <Sheet className={styles.sheet} aria-labelledby="performed-title">
      <header className={styles.head}>
        <h2 id="performed-title">Performances</h2>
        {canLog && (
          <Button small onClick={() => setIsOpen(true)}>
            <Icon name="plus" /> Log a performance
          </Button>
        )}
      </header>
      {performances.length === 0 && (
        <p className={styles.none}>
          {piece.lastEdition === 0
            ? "A performance belongs to an edition: freeze the first one, then log where you play it."
            : "Nothing is logged yet."}
        </p>
      )}
      <PerformanceList performances={performances} mayLog={() => mayLog} now={now} />
      {isOpen && <LogDialog pieces={[piece]} today={now.slice(0, 10)} onClose={() => setIsOpen(false)} />}
    </Sheet>
  );
}
