"use client";

import type { DeskHint } from "@/app/_data/desk/hands-desk";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { Moment } from "../../_components/moment";
import styles from "./earlier-hints.module.css";

/** What stood here before; any of it can be taken again. */
export function EarlierHints({
  written,
  onTake,
}: {
  /** The newest first. */
  written: readonly DeskHint[];
  /** Null for whoever only reads. */
  onTake: ((text: string) => Promise<boolean>) | null;
}) {
  return (
    <Evidence summary={`Earlier words: ${written.length}`}>
      <ul className={styles.list}>
        {written.map(({ text, authorName, at }) => (
          <li key={`${at} ${text}`}>
            <p>{text === "" ? "The usual words again." : text}</p>
            <p className={styles.foot}>
              <small>
                {authorName}, <Moment iso={at} />
              </small>
              {onTake && text !== "" && (
                <Button kind="bare" small onClick={() => onTake(text)}>
                  Take these again
                </Button>
              )}
            </p>
          </li>
        ))}
      </ul>
    </Evidence>
  );
}
