"use client";

import { useId, useState } from "react";
import { classNames } from "@/app/_ui/class-names";
import { Icon } from "@/app/_ui/icon";
import { WithFlats } from "@/app/_ui/music-sign";
import type { JoinRow as Row } from "@/lib/cuts/join/join-row";
import { sayFigures } from "./join-evidence";
import { JoinFigure } from "./join-figure";
import styles from "./join-row.module.css";
import { JoinSeam } from "./join-seam";
import { isDrawn, nameRow, sayGrade } from "./join-words";

/**
 * One thing that was looked at on both sides of a join. The words lead to the notes; the figure opens to what it was
 * computed from.
 */
export function JoinRow({
  row,
  keyRow,
  isShown,
  onShow,
}: {
  row: Row;
  /** How the chords are spelled. */
  keyRow: Row | undefined;
  /** Its notes are marked on the score now. */
  isShown: boolean;
  onShow: () => void;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const evidenceId = useId();
  const figures = sayFigures(row);
  const isFigured = isDrawn(row.kind);
  const name = nameRow(row.kind);
  return (
    <li className={classNames(styles.row, !isFigured && styles.plain, isShown && styles.shown)}>
      {/* The button beside it says it too. */}
      <span className={styles.name} aria-hidden="true">
        <JoinSeam grade={row.grade} small />
        {name}
      </span>
      <button
        type="button"
        className={styles.sentence}
        aria-pressed={isShown}
        aria-label={`${name}: ${sayGrade(row.grade)}. ${row.sentence} Show it in the score`}
        onClick={onShow}
      >
        <WithFlats text={row.sentence} />
      </button>
      {figures.length > 0 && (
        <button
          type="button"
          className={styles.figure}
          aria-expanded={isOpen}
          aria-controls={evidenceId}
          aria-label={`What ${name} was judged by`}
          onClick={() => setIsOpen((last) => !last)}
        >
          {isFigured ? (
            <JoinFigure row={row} keyRow={keyRow} />
          ) : (
            <Icon name={isOpen ? "minus" : "plus"} small />
          )}
        </button>
      )}
      <dl id={evidenceId} className={styles.evidence} hidden={!isOpen}>
        {isOpen &&
          figures.map(({ what, value }) => (
            <div key={what}>
              <dt>{what}</dt>
              <dd>
                <WithFlats text={value} />
              </dd>
            </div>
          ))}
      </dl>
    </li>
  );
}
