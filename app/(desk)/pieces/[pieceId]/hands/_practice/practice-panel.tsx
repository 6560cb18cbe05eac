"use client";

import { useMemo, useState } from "react";
import type { HandsPerformance } from "@/app/_data/desk/hands-desk";
import { usePracticeLog } from "@/app/_practice/use-practice-log";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { orderPassages } from "@/lib/practice/order-passages";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { type PracticePassage, passageKey } from "@/lib/practice/practice-passage";
import { findReachedTempo } from "@/lib/practice/reached-tempo";
import { OtherEntries } from "./other-entries";
import { PassageItem } from "./passage-item";
import { PlanSheet } from "./plan-sheet";
import styles from "./practice-panel.module.css";

export interface PracticePanelProps {
  pieceId: string;
  /** The account that the log belongs to. */
  userId: string;
  sourceHash: string;
  passages: readonly PracticePassage[];
  /** What the server has of the log. */
  entries: readonly PracticeRecord[];
  performance: HandsPerformance | null;
  /** The printed number of a bar, by index. */
  labelOf: (barIndex: number) => string;
  /** What stands in place of the print: it is what is heard. */
  rewrites?: readonly RewriteTerms[];
}

const none: readonly RewriteTerms[] = [];

/** Practising up to tempo, passage by passage, and the rehearsals until the performance. */
export function PracticePanel({
  pieceId,
  userId,
  sourceHash,
  passages,
  entries,
  performance,
  labelOf,
  rewrites = none,
}: PracticePanelProps) {
  const log = usePracticeLog({ pieceId, userId, sourceHash }, entries);
  const ordered = useMemo(() => orderPassages(passages), [passages]);
  const [chosen, setChosen] = useState<string | null>(null);
  // The neediest is open at first; "" closes all.
  const open = chosen ?? (ordered[0] ? passageKey(ordered[0]) : "");
  const there = ordered.filter((passage) => findReachedTempo(passage, log.entries).standing === "at tempo");
  return (
    <div className={styles.panel}>
      <div className={styles.columns}>
        <Sheet className={styles.list} aria-label="Practice">
          <h2 className={styles.head}>
            Practice{" "}
            <small>
              {there.length} of {ordered.length} at tempo
            </small>
          </h2>
          {log.problem && <SayProblem>{log.problem}</SayProblem>}
          {ordered.length === 0 && (
            <p className={styles.none}>
              Nothing is awkward for you at performance tempo: there is no ladder to climb.
            </p>
          )}
          <ol>
            {ordered.map((passage) => {
              const key = passageKey(passage);
              return (
                <PassageItem
                  key={key}
                  passage={passage}
                  log={log}
                  rewrites={rewrites}
                  draftName={`${userId}-${pieceId}-note-${key}`}
                  isOpen={key === open}
                  onOpen={() => setChosen(key === open ? "" : key)}
                />
              );
            })}
          </ol>
          <OtherEntries passages={ordered} log={log} labelOf={labelOf} />
        </Sheet>
        <PlanSheet
          passages={ordered}
          entries={log.entries}
          performance={performance}
          settingsName={`${userId}-${pieceId}`}
        />
      </div>
    </div>
  );
}
