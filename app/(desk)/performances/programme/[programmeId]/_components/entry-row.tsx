"use client";

import Link from "next/link";
import { useState } from "react";
import { pageOfEdition } from "@/app/_offline/edition-on-stand";
import { Button, ButtonLink } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { sayTimes } from "@/app/(desk)/_performances/say-performance";
import { sayClock } from "@/lib/score/say-clock";
import type { ProgrammeEntry } from "@/lib/store/programmes/programme-record";
import { GapField } from "./gap-field";
import styles from "./programme.module.css";
import type { ProgrammeItem } from "./programme-items";
import { WordsDialog } from "./words-dialog";

/** One entry: what is before it, what it is, how long, and its place among the others. */
export function EntryRow({
  entry,
  programmeId,
  index,
  count,
  isBusy,
  onMove,
  onReplace,
  onTakeOut,
}: {
  entry: ProgrammeEntry;
  programmeId: string;
  index: number;
  count: number;
  isBusy: boolean;
  onMove: (by: -1 | 1, button: HTMLElement) => void;
  onReplace: (item: ProgrammeItem) => Promise<boolean>;
  onTakeOut: () => void;
}) {
  const [isOpen, setIsOpen] = useState(false);
  const name = nameOf(entry);
  const { itemId, gapSeconds } = entry;
  return (
    <li className={styles.entry} aria-label={name}>
      <GapField
        key={gapSeconds}
        gapSeconds={gapSeconds}
        isFirst={index === 0}
        isBusy={isBusy}
        name={name}
        onChange={(seconds) => void onReplace({ kind: "kept", itemId, gapSeconds: seconds })}
      />
      <div className={styles.line}>
        <b className={styles.number}>{index + 1}</b>
        <EntryWhat entry={entry} />
        <EntryTime entry={entry} />
        <ReadEntry entry={entry} programmeId={programmeId} />
      </div>
      <p className={styles.places}>
        <IconButton
          icon="back"
          className={styles.up}
          label={`${name}: one place earlier`}
          disabled={isBusy || index === 0}
          onClick={(event) => onMove(-1, event.currentTarget)}
        />
        <IconButton
          icon="back"
          className={styles.downwards}
          label={`${name}: one place later`}
          disabled={isBusy || index === count - 1}
          onClick={(event) => onMove(1, event.currentTarget)}
        />
        {entry.kind === "words" && (
          <Button small kind="bare" disabled={isBusy} onClick={() => setIsOpen(true)}>
            Change
          </Button>
        )}
        <Button small kind="bare" disabled={isBusy} onClick={onTakeOut} aria-label={`${name}: take it out`}>
          Take it out
        </Button>
      </p>
      {isOpen && entry.kind === "words" && (
        <WordsDialog
          stood={entry}
          isBusy={isBusy}
          onClose={() => setIsOpen(false)}
          onWrite={async (words) => {
            if (await onReplace({ ...words, gapSeconds })) setIsOpen(false);
          }}
        />
      )}
    </li>
  );
}

/** What is told of an entry to those who may know it. */
export function EntryWhat({ entry }: { entry: ProgrammeEntry }) {
  if (entry.kind === "another piece") {
    return (
      <div className={styles.what}>
        <h3>another piece</h3>
        <p>You do not belong to it.</p>
      </div>
    );
  }
  if (entry.kind === "words") {
    return (
      <div className={styles.what}>
        <h3>{entry.title}</h3>
      </div>
    );
  }
  const { pieceId, pieceTitle, editionNumber, isRemoved, on, result } = entry.performance;
  return (
    <div className={styles.what}>
      <h3>
        <Link href={`/pieces/${pieceId}/editions`}>{pieceTitle}</Link>
      </h3>
      <p>
        <EditionStamp number={editionNumber} />{" "}
        {[sayShortDay(on), result, isRemoved && "taken off: it is not counted"].filter(Boolean).join(" · ")}
      </p>
    </div>
  );
}

/** The way to its edition on the stand, and from there back to the programme. */
export function ReadEntry({ entry, programmeId }: { entry: ProgrammeEntry; programmeId: string }) {
  if (entry.kind !== "performance" || entry.performance.isRemoved) return null;
  const { pieceId, pieceTitle, editionNumber: number } = entry.performance;
  return (
    <p className={styles.read}>
      <ButtonLink
        href={`${pageOfEdition({ pieceId, number })}?programme=${programmeId}`}
        prefetch={false}
        aria-label={`Read ${pieceTitle}, № ${number}, page by page`}
      >
        <Icon name="page" /> Read it
      </ButtonLink>
    </p>
  );
}

/** Planned, or by the clock once it was played. */
export function EntryTime({ entry }: { entry: ProgrammeEntry }) {
  if (entry.kind === "another piece") return null;
  if (entry.kind === "words") {
    const { plannedSeconds, realSeconds } = entry;
    const time = realSeconds ?? plannedSeconds;
    return (
      <p className={styles.entryTime}>
        <b>{time === null ? "–" : sayClock(time)}</b>
        <span>{realSeconds === null ? "as written down" : "by the clock"}</span>
      </p>
    );
  }
  const { time, against } = sayTimes({ ...entry.performance, limitSeconds: null });
  const { low, high } = entry.expected;
  return (
    <p className={styles.entryTime}>
      <b>{time}</b>
      <span>
        {entry.performance.realSeconds === null ? `${sayClock(low)} to ${sayClock(high)}` : against[0]}
      </span>
    </p>
  );
}

function nameOf(entry: ProgrammeEntry): string {
  if (entry.kind === "performance") return entry.performance.pieceTitle;
  return entry.kind === "words" ? entry.title : "another piece";
}
