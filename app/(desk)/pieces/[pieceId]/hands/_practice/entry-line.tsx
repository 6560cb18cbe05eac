"use client";

import type { LoggedEntry } from "@/app/_practice/lay-changes";
import type { PracticeLog } from "@/app/_practice/use-practice-log";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { classNames } from "@/app/_ui/class-names";
import { MetronomeMark } from "@/app/_ui/metronome-mark";
import { Moment } from "../../_components/moment";
import styles from "./entry-line.module.css";

/** One line of the log: the tempo, whether it held, when, and the note. It can be taken off and brought back. */
export function EntryLine({
  entry,
  log,
  label,
  hasLabel = false,
}: {
  entry: LoggedEntry;
  log: PracticeLog;
  /** "bars 112–115". */
  label: string;
  /** The bars are told, because they do not stand over it. */
  hasLabel?: boolean;
}) {
  const announce = useAnnounce();
  const isOff = entry.removedAt !== null;
  const { beat, perMinute, held } = entry.tempo;
  const change = () => {
    if (isOff) log.bringBack(entry, label);
    else log.takeOff(entry, label);
    announce(isOff ? "Back in the log." : "Taken off the log.");
  };
  return (
    <li className={classNames(styles.line, isOff && styles.off)}>
      <span className={styles.tempo}>
        <MetronomeMark beat={beat} perMinute={perMinute} />
      </span>
      <span className={styles.words}>
        {hasLabel && `${capital(label)} `}
        {held ? "held" : "did not hold"} · <Moment iso={entry.at} />
        {entry.note && <q>{entry.note}</q>}
        {isOff && <em>Taken off.</em>}
        {entry.isUnsent && entry.refusal === null && (
          <em className={styles.unsent}>Not sent. It stays here and goes when you are back.</em>
        )}
        {entry.refusal && <em role="alert">Not kept: {entry.refusal}</em>}
      </span>
      {entry.refusal ? (
        <Button kind="bare" small onClick={() => log.letGo(entry)}>
          Let it go
        </Button>
      ) : (
        <Button kind="bare" small onClick={change}>
          {isOff ? "Bring it back" : "Take it off"}
        </Button>
      )}
    </li>
  );
}
