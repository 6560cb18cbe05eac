import type { ReactNode } from "react";
import { Icon } from "./icon";
import styles from "./say.module.css";

/** A sentence about something that went wrong or needs care. Ink and a sign, no colour; announced when it appears. */
export function SayProblem({ children }: { children: ReactNode }) {
  return (
    <div className={styles.problem} role="alert">
      <Icon name="warning" />
      <div>{children}</div>
    </div>
  );
}

/** A caution or a remark in passing. */
export function SayNote({ children }: { children: ReactNode }) {
  return <div className={styles.note}>{children}</div>;
}
