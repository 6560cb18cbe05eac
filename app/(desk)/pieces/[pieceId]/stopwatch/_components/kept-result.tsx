"use client";

import { Button, ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Sheet } from "@/app/_ui/sheet";
import { SectionTimes } from "@/app/(desk)/_performances/section-times";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./stopwatch.module.css";

/** What was written down, with the offer to plan with these times from now on. */
export function KeptResult({
  performance: { id, pieceId, name, sections, limitSeconds, editionNumber },
  onAgain,
}: {
  performance: PerformanceRecord;
  onAgain: () => void;
}) {
  return (
    <Sheet className={styles.result}>
      <header className={styles.startHead}>
        <h1>{name}</h1>
        <EditionStamp number={editionNumber} />
      </header>
      <p className={styles.quiet}>
        Written down. Choose sections that you want to plan with: their times then count as your own from the
        next edition on.
      </p>
      {sections && (
        <SectionTimes
          sections={sections.sections}
          limitSeconds={limitSeconds}
          byDeviceClock={sections.byDeviceClock}
          take={{ pieceId, performanceId: id }}
        />
      )}
      <p className={styles.undo}>
        <Button onClick={onAgain}>Once more</Button>
        <ButtonLink kind="bare" href={`/pieces/${pieceId}/editions`}>
          Editions and performances
        </ButtonLink>
      </p>
    </Sheet>
  );
}
