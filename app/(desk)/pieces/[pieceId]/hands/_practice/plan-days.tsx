import { capital } from "@/app/_ui/capital";
import { sayDay } from "@/app/_ui/say-date";
import type { PlannedDay } from "@/lib/practice/rehearsal-plan";
import styles from "./plan-days.module.css";
import { sayPlannedDay, sayReason, sayRunThrough } from "./say-plan";

/** The days until the performance, each with its passages and minutes. */
export function PlanDays({
  days,
  today,
  nameOf,
  isOnPaper = false,
}: {
  days: readonly PlannedDay[];
  today: string;
  nameOf: (key: string) => string;
  /** Dates instead of "today", and a box to tick. */
  isOnPaper?: boolean;
}) {
  return (
    <ol className={styles.days}>
      {days.map((day) => {
        const run = sayRunThrough(day);
        return (
          <li key={day.on} className={styles.day}>
            <b>{isOnPaper ? sayDay(day.on, new Date(today)) : sayPlannedDay(day.on, today)}</b>
            <ul>
              {day.sessions.map(({ key, minutes, reason }) => (
                <li key={key}>
                  <span>
                    {isOnPaper && <i className={styles.box} />}
                    {capital(nameOf(key))}
                    {!isOnPaper && <small> {sayReason(reason)}</small>}
                  </span>
                  <span className={styles.minutes}>{minutes} min</span>
                </li>
              ))}
              {run && (
                <li>
                  <span>
                    {isOnPaper && <i className={styles.box} />}
                    {run}
                  </span>
                  <span className={styles.minutes}>{day.runThroughMinutes} min</span>
                </li>
              )}
            </ul>
          </li>
        );
      })}
    </ol>
  );
}
