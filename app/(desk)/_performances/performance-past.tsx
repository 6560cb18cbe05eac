"use client";

import { useEffect, useState } from "react";
import type { ActionResult } from "@/app/_data/action-result";
import { sayDay } from "@/app/_ui/say-date";
import { listPerformanceChangesAction } from "@/app/(desk)/pieces/[pieceId]/actions/list-performance-changes";
import type { PerformanceChange } from "@/lib/store/performances/list-performance-changes";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./performance-past.module.css";
import { sayDeed, sayField } from "./say-change";

/** Who did what to a performance, and the wording that stood there before. Nothing that was written is lost. */
export function PerformancePast({
  performance: { id, pieceId, revision },
  now,
}: {
  performance: Pick<PerformanceRecord, "id" | "pieceId" | "revision">;
  now: string;
}) {
  const [answer, setAnswer] = useState<ActionResult<PerformanceChange[]> | "not read" | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of it is read too.
  useEffect(() => {
    let isOver = false;
    const asked = listPerformanceChangesAction({ pieceId, performanceId: id });
    asked
      .catch(() => "not read" as const)
      .then((read) => {
        if (!isOver) setAnswer(read);
      });
    return () => {
      isOver = true;
    };
  }, [pieceId, id, revision]);
  if (answer === null) return <p className={styles.quiet}>Reading…</p>;
  if (answer === "not read")
    return <p className={styles.quiet}>No connection. It is read when you are back.</p>;
  if (!answer.ok) return <p className={styles.quiet}>{answer.sentence}</p>;
  return (
    <ol className={styles.past}>
      {answer.value.map((change) => (
        <li key={change.id}>
          <p>
            <b>{change.by || "Somebody"}</b> {sayDeed(change.what)},{" "}
            <time dateTime={change.at}>{sayDay(change.at, new Date(now))}</time>
          </p>
          <ul>
            {Object.keys(change.after)
              .map((field) => sayField(field, change.before[field], change.after[field]))
              .filter((words) => words !== null)
              .map((words) => (
                <li key={words}>{words}</li>
              ))}
          </ul>
        </li>
      ))}
    </ol>
  );
}
