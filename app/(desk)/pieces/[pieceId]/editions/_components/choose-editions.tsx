"use client";

import { SelectField } from "@/app/_ui/field";
import type { SideName } from "@/lib/edition/choose-sides";
import { saySide } from "@/lib/edition/choose-sides";
import styles from "./comparison.module.css";
import { useAsked } from "./use-asked";

/** Which two are compared. The address keeps the choice. */
export function ChooseEditions({
  sides,
  earlier,
  later,
}: {
  /** The earliest first. */
  sides: readonly SideName[];
  earlier: SideName;
  later: SideName;
}) {
  const { ask } = useAsked();
  // The changes of two others are others.
  const go = (from: SideName | string, to: SideName | string) =>
    ask({ from: `${from}`, to: `${to}`, change: null });
  const choose = (label: string, value: SideName, onChoose: (side: string) => void) => (
    <SelectField
      label={label}
      isLabelHidden
      className={styles.choice}
      value={String(value)}
      onChange={(event) => onChoose(event.target.value)}
    >
      {sides.map((side) => (
        <option key={side} value={String(side)}>
          {saySide(side)}
        </option>
      ))}
    </SelectField>
  );
  return (
    <div className={styles.choose}>
      <h2>What changed from</h2>
      {choose("From", earlier, (side) => go(side, later))}
      <span className={styles.to}>to</span>
      {choose("To", later, (side) => go(earlier, side))}
    </div>
  );
}
