"use client";

import Link from "next/link";
import { useState } from "react";
import { Button, ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { Sheet } from "@/app/_ui/sheet";
import type { MyPerformance } from "@/lib/store/performances/list-performances";
import type { ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import { findLastPlayed, sayLastPlayed } from "../../_performances/last-played";
import { LogDialog, type LoggablePiece } from "../../_performances/log-dialog";
import { PerformanceList } from "../../_performances/performance-list";
import { isUpcoming } from "../../_performances/say-performance";
import styles from "./all-performances.module.css";
import { ProgrammeList } from "./programme-list";

/** A piece of the viewer's, whether or not it has an edition. */
export interface MyPiece extends LoggablePiece {
  readonly mayLog: boolean;
}

/** What comes, the next one first; what was, the last one first; programmes of several pieces. */
export function AllPerformances({
  performances,
  pieces,
  programmes,
  now,
}: {
  /** The latest first. */
  performances: readonly MyPerformance[];
  pieces: readonly MyPiece[];
  programmes: readonly ProgrammeRecord[];
  now: string;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const today = now.slice(0, 10);
  const upcoming = performances.filter((performance) => isUpcoming(performance, today)).reverse();
  const past = performances.filter((performance) => !isUpcoming(performance, today));
  const loggable = pieces.filter(({ lastEdition, mayLog }) => mayLog && lastEdition > 0);
  const list = (some: readonly MyPerformance[]) => (
    <PerformanceList
      performances={some}
      mayLog={({ pieceId }) => pieces.some(({ id, mayLog }) => mayLog && id === pieceId)}
      lastEditionOf={({ pieceId }) => pieces.find(({ id }) => id === pieceId)?.lastEdition ?? 1}
      now={now}
      pieceOf={(performance) => <PieceLink performance={performance as MyPerformance} />}
    />
  );
  return (
    <main className={styles.page} id="main">
      <div className={styles.head}>
        <h1>Performances</h1>
        {loggable.length > 0 && (
          <Button onClick={() => setIsOpen(true)}>
            <Icon name="plus" /> Log a performance
          </Button>
        )}
      </div>
      {performances.length === 0 ? (
        <Sheet className={styles.none}>
          <p>
            {loggable.length > 0
              ? "Nothing is logged yet. Log where you are going to play: the limit then stands beside the running time."
              : "A performance belongs to an edition. Freeze one on a piece’s Editions screen; then log where you play it."}
          </p>
          {loggable.length === 0 && <ButtonLink href="/">Your pieces</ButtonLink>}
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
      <div className={styles.columns}>
        <ProgrammeList programmes={programmes} today={today} />
        <LastPlayed pieces={pieces} performances={performances} now={now} />
      </div>
      {isOpen && <LogDialog pieces={loggable} today={today} onClose={() => setIsOpen(false)} />}
    </main>
  );
}

/** For each piece: with which edition it was last on a stage, and when. */
function LastPlayed({
  pieces,
  performances,
  now,
}: {
  pieces: readonly MyPiece[];
  performances: readonly MyPerformance[];
  now: string;
}) {
  const lines = pieces.flatMap(({ id, title }) => {
    const own = performances.filter(({ pieceId }) => pieceId === id);
    const last = findLastPlayed(own, now.slice(0, 10));
    return last ? [{ id, title, words: sayLastPlayed(last, new Date(now)) }] : [];
  });
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="last-played">
      <h2 id="last-played">Last played</h2>
      <Sheet className={styles.sheet}>
        <ul className={styles.last}>
          {lines.map(({ id, title, words }) => (
            <li key={id}>
              <Link href={`/pieces/${id}/editions`}>{title}</Link>
              <span>{words}</span>
            </li>
          ))}
        </ul>
      </Sheet>
    </section>
  );
}

function PieceLink({ performance: { pieceId, pieceTitle } }: { performance: MyPerformance }) {
  return <Link href={`/pieces/${pieceId}/editions`}>{pieceTitle}</Link>;
}
