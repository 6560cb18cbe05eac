import type { ReactNode } from "react";
import styles from "./evidence.module.css";
import { Icon } from "./icon";

/** A figure or a line that opens to what it was computed from. */
export function Evidence({ summary, children }: { summary: ReactNode; children: ReactNode }) {
  return (
    <details className={styles.evidence}>
      <summary>
        <Icon name="forward" small />
        <span>{summary}</span>
      </summary>
      <div className={styles.body}>{children}</div>
    </details>
  );
}
