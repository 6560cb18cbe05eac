"use client";

import Link from "next/link";
import { useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { MyPerformance } from "@/lib/store/performances/list-performances";
import { LogDialog, type LoggablePiece } from "../../_performances/log-dialog";
import { PerformanceList } from "../../_performances/performance-list";
import { isUpcoming } from "../../_performances/say-performance";
import styles from "./all-performances.module.css";

/** What comes, the next one first; what was, the last one first. */
export function AllPerformances({
  performances,
  pieces,
  now,
}: {
  /** The latest first. */
  performances: readonly MyPerformance[];
  /** Those whose performances the viewer may log, whether or not they have an edition. */
  pieces: readonly LoggablePiece[];
  now: string;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const today = now.slice(0, 10);
  const upcoming = performances.filter((performance) => isUpcoming(performance, today)).reverse();
  const past = performances.filter((performance) => !isUpcoming(performance, today));
  const withEdition = pieces.filter(({ lastEdition }) => lastEdition > 0);
  const list = (some: readonly MyPerformance[]) => (
    <PerformanceList
      performances={some}
      mayLog={({ pieceId }) => pieces.some(({ id }) => id === pieceId)}
      now={now}
      pieceOf={(performance) => <PieceLink performance={performance as MyPerformance} />}
    />
  );
  return (
    <main className={styles.page} id="main">
      <div className={styles.head}>
        <h1>Performances</h1>
        {withEdition.length > 0 && (
          <Button onClick={() => setIsOpen(true)}>
            <Icon name="plus" /> Log a performance
          </Button>
        )}
      </div>
      {performances.length === 0 ? (
        <Sheet className={styles.none}>
          <p>
            {withEdition.length > 0
              ? "Nothing is logged yet. Log where you are going to play: the limit then stands beside the running time."
              : "A performance belongs to an edition. Freeze one on a piece’s Editions screen; then log where you play it."}
          </p>
          {withEdition.length === 0 && <ButtonLink href="/">Your pieces</ButtonLink>}
        </Sheet>
      ) : (
        <div className={styles.columns}>
          <section aria-labelledby="ahead">
            <h2 id="ahead">Ahead</h2>
            <Sheet className={styles.sheet}>
              {upcoming.length === 0 && <p className={styles.quiet}>None is planned.</p>}
              {list(upcoming)}
            </Sheet>
          </section>
          <section aria-labelledby="played">
            <h2 id="played">Played</h2>
            <Sheet className={styles.sheet}>
              {past.length === 0 && <p className={styles.quiet}>None yet.</p>}
              {list(past)}
            </Sheet>
          </section>
        </div>
      )}
      {isOpen && <LogDialog pieces={withEdition} today={today} onClose={() => setIsOpen(false)} />}
    </main>
  );
}

function PieceLink({ performance: { pieceId, pieceTitle } }: { performance: MyPerformance }) {
  return <Link href={`/pieces/${pieceId}/editions`}>{pieceTitle}</Link>;
}
