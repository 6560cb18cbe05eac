"use client";

import { IconButton } from "@/app/_ui/icon-button";
import styles from "./stepper.module.css";

/** A figure between two buttons. */
export function Stepper({
  label,
  value,
  says,
  step,
  least,
  most,
  onChange,
}: {
  label: string;
  value: number;
  /** The value in words: "6 a second". */
  says: string;
  step: number;
  least: number;
  most: number;
  onChange: (value: number) => void;
}) {
  const by = (steps: number) => {
    // Whole steps, so that many of them do not add up to 5.999.
    const next = Math.round(value / step + steps) * step;
    onChange(Math.min(most, Math.max(least, Math.round(next * 100) / 100)));
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.stepper} role="group" aria-label={label}>
      <span className={styles.label}>{label}</span>
      <IconButton icon="minus" label={`${label}: less`} disabled={value <= least} onClick={() => by(-1)} />
      <output>{says}</output>
      <IconButton icon="plus" label={`${label}: more`} disabled={value >= most} onClick={() => by(1)} />
    </div>
  );
}
