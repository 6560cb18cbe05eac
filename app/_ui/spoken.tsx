import type { ReactNode } from "react";
import styles from "./spoken.module.css";

/** Text for those who hear the page; it takes no room on it. */
export function Spoken({ children }: { children: ReactNode }) {
  return <span className={styles.spoken}>{children}</span>;
}
