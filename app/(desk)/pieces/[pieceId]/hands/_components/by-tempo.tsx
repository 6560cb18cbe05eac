"use client";

import { Sheet } from "@/app/_ui/sheet";
import styles from "./by-tempo.module.css";

/** Above this many no triangles are drawn, only the number. */
const mostDrawn = 8;

/** How many passages there are at several tempi. Each tempo can be pressed. */
export function ByTempo({
  steps,
  pace,
  perMinute,
  where,
  onPace,
}: {
  steps: readonly { readonly pace: number; readonly count: number }[];
  pace: number;
  /** The duo's tempo that the figures stand for. */
  perMinute: number;
  /** "the tempo of bar 112". */
  where: string;
  onPace: (pace: number) => void;
}) {
  const nearest = steps.reduce<number | null>(
    (best, step) => (best === null || Math.abs(step.pace - pace) < Math.abs(best - pace) ? step.pace : best),
    null,
  );
  return (
    <Sheet className={styles.sheet} aria-label="By tempo">
      <h2>By tempo</h2>
      <p>Found from your numbers, the whole piece slower or faster. Counted in {where}.</p>
      <div className={styles.steps}>
        {steps.map((step) => {
          const beats = Math.round(step.pace * perMinute);
          return (
            <button
              key={step.pace}
              type="button"
              aria-pressed={step.pace === nearest}
              aria-label={`${beats} beats a minute: ${step.count === 1 ? "1 passage" : `${step.count} passages`}`}
              onClick={() => onPace(step.pace)}
            >
              <span className={styles.count} aria-hidden="true">
                {step.count > mostDrawn ? (
                  <b>{step.count}</b>
                ) : step.count === 0 ? (
                  <i />
                ) : (
                  Array.from({ length: step.count }, (_, index) => (
                    // All alike: their place is their name.
                    // biome-ignore lint/suspicious/noArrayIndexKey: see above
                    <svg key={index} viewBox="0 0 14 11" aria-hidden="true">
                      <path d="M1 1h12L7 10z" />
                    </svg>
                  ))
                )}
              </span>
              <span className={styles.beats} aria-hidden="true">
                {beats}
              </span>
            </button>
          );
        })}
      </div>
    </Sheet>
  );
}
