"use client";

import { useId } from "react";
import type { PracticeLog } from "@/app/_practice/use-practice-log";
import { capital } from "@/app/_ui/capital";
import { Icon } from "@/app/_ui/icon";
import { MetronomeMark } from "@/app/_ui/metronome-mark";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { findReachedTempo } from "@/lib/practice/reached-tempo";
import { planLadder } from "@/lib/practice/tempo-ladder";
import { sayStanding } from "@/lib/practice/tempo-marks";
import { LadderFigure } from "./ladder-figure";
import styles from "./passage-item.module.css";
import { PassagePractice } from "./passage-practice";

/** A passage in the list; opened, its ladder is climbed there. */
export function PassageItem({
  passage,
  log,
  rewrites,
  draftName,
  isOpen,
  onOpen,
}: {
  passage: PracticePassage;
  log: PracticeLog;
  rewrites: readonly RewriteTerms[];
  /** Under which a note that is not logged yet is kept on the device. */
  draftName: string;
  isOpen: boolean;
  onOpen: () => void;
}) {
  const id = useId();
  const ladder = planLadder(passage, log.entries);
  const { standing } = findReachedTempo(passage, log.entries);
  return (
    <li className={styles.item} aria-label={capital(passage.label)}>
      <h3>
        <button
          type="button"
          className={styles.head}
          aria-expanded={isOpen}
          aria-controls={isOpen ? id : undefined}
          onClick={onOpen}
        >
          <span className={styles.words}>
            <b>{capital(passage.label)}</b>
            <span>{passage.why}</span>
            <small className={styles.standing}>
              {standing === "at tempo" && <Icon name="check" small />}{" "}
              {capital(sayStanding(passage, log.entries))}
            </small>
          </span>
          <span className={styles.goal}>
            <MetronomeMark {...passage.tempo} />
            {!isOpen && <LadderFigure ladder={ladder} tried={ladder.current} isSmall />}
          </span>
        </button>
      </h3>
      {isOpen && (
        <div id={id}>
          <PassagePractice {...{ passage, ladder, log, rewrites, draftName }} />
        </div>
      )}
    </li>
  );
}
