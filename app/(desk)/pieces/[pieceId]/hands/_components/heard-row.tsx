import type { ReactNode } from "react";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import styles from "./heard-row.module.css";

/** One thing that is kept or lost, in a few words; it opens to what was counted. */
export function HeardRow({
  name,
  isKept,
  words,
  children,
}: {
  name: string;
  isKept: boolean;
  words: string;
  children: ReactNode;
}) {
  return (
    <div className={styles.row}>
      <Evidence
        summary={
          <span className={styles.summary}>
            <Icon name={isKept ? "check" : "warning"} small />
            <b>{name}</b>
            <span>{words}</span>
          </span>
        }
      >
        {children}
      </Evidence>
    </div>
  );
}
