"use client";

import { layKeys, sayKey } from "./key-layout";
import styles from "./tap-keyboard.module.css";

/** A keyboard to tap on: the keys of a chord are pressed one after the other and stay down. */
export function TapKeyboard({
  label,
  from,
  to,
  down,
  onTap,
}: {
  label: string;
  from: number;
  to: number;
  down: ReadonlySet<number>;
  onTap: (midi: number) => void;
}) {
  const { keys, width } = layKeys(from, to);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.keyboard} role="group" aria-label={label}>
      {keys.map(({ midi, isBlack, x, width: keyWidth }) => (
        <button
          key={midi}
          type="button"
          className={isBlack ? styles.black : styles.white}
          style={{ left: `${(100 * x) / width}%`, width: `${(100 * keyWidth) / width}%` }}
          aria-label={sayKey(midi)}
          aria-pressed={down.has(midi)}
          onClick={() => onTap(midi)}
        />
      ))}
    </div>
  );
}
