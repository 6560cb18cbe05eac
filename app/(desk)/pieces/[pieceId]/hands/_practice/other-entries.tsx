"use client";

import type { LoggedEntry } from "@/app/_practice/lay-changes";
import type { PracticeLog } from "@/app/_practice/use-practice-log";
import { Evidence } from "@/app/_ui/evidence";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { EntryLine } from "./entry-line";
import styles from "./other-entries.module.css";

/** What was logged of bars that are no passage any more, or only a part of one: other hands, another tempo. */
export function OtherEntries({
  passages,
  log,
  labelOf,
}: {
  passages: readonly PracticePassage[];
  log: PracticeLog;
  labelOf: (barIndex: number) => string;
}) {
  const covers = (entry: LoggedEntry) =>
    passages.some(({ fromBar, toBar }) => entry.fromBar <= fromBar && entry.toBar >= toBar);
  const others = log.entries.filter((entry) => !covers(entry)).toReversed();
  if (others.length === 0) return null;
  const nameOf = ({ fromBar, toBar }: LoggedEntry) =>
    fromBar === toBar ? `bar ${labelOf(fromBar)}` : `bars ${labelOf(fromBar)}–${labelOf(toBar)}`;
  return (
    <div className={styles.others}>
      <Evidence summary={`Logged of other bars: ${others.length}`}>
        <ul>
          {others.map((entry) => (
            <EntryLine key={entry.id} entry={entry} log={log} label={nameOf(entry)} hasLabel />
          ))}
        </ul>
      </Evidence>
    </div>
  );
}
