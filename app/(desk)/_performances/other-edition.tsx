"use client";

import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./dialog-form.module.css";

/** To be said where a performance that was played is to point at another edition. */
export function OtherEdition({ stood, chosen }: { stood: PerformanceRecord; chosen: number }) {
  return (
    <label className={styles.check}>
      <input type="checkbox" name="editionWasWrong" required />
      <span>
        № {chosen} was played, not № {stood.editionNumber}. The planned time becomes that of № {chosen}; the
        history keeps what stood here.
      </span>
    </label>
  );
}
