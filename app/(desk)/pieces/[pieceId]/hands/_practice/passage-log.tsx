"use client";

import type { LoggedEntry } from "@/app/_practice/lay-changes";
import type { PracticeLog } from "@/app/_practice/use-practice-log";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { EntryLine } from "./entry-line";
import styles from "./passage-log.module.css";

/** Fewer are shown until they are asked for. */
const shownAtOnce = 4;

/** What was logged of a passage, the latest first. */
export function PassageLog({ passage, log }: { passage: PracticePassage; log: PracticeLog }) {
  const here = log.entries
    .filter((entry) => entry.fromBar <= passage.fromBar && entry.toBar >= passage.toBar)
    .toReversed();
  if (here.length === 0) return null;
  const [shown, rest] = [here.slice(0, shownAtOnce), here.slice(shownAtOnce)];
  const line = (entry: LoggedEntry) => (
    <EntryLine key={entry.id} entry={entry} log={log} label={passage.label} />
  );
  return (
    <div className={styles.log}>
      <h4>Log</h4>
      <ul aria-label={`Log of ${passage.label}`}>{shown.map(line)}</ul>
      {rest.length > 0 && (
        <details>
          <summary>
            {rest.length} earlier {rest.length === 1 ? "entry" : "entries"}
          </summary>
          <ul>{rest.map(line)}</ul>
        </details>
      )}
    </div>
  );
}
