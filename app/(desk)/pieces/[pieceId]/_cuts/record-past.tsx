"use client";

import { useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { RecordPastOf } from "@/app/_data/desk/read-record-past";
import { Button } from "@/app/_ui/button";
import { inkOf } from "@/app/_ui/party";
import { WhoMark } from "@/app/_ui/who-mark";
import type { RoomChange } from "@/lib/room/history/room-change";
import { Moment } from "../_components/moment";
import { personOf } from "../_components/person";
import { readRecordPastAction } from "../actions/read-record-past";
import styles from "./record-past.module.css";
import { sayPast } from "./say-past";

type Past =
  | { readonly status: "unread" | "reading" }
  | { readonly status: "read"; readonly changes: readonly RoomChange[] }
  | { readonly status: "unknown"; readonly sentence: string };

const unreachable = "Not known without a connection. Close this and open it again when you are back.";

/** What one comment, breath or pencilled cut was before: who changed it, when and how. It is read when it is opened. */
export function RecordPast({
  desk,
  of,
  onBringBack,
}: {
  desk: Pick<Desk, "pieceId" | "people" | "me" | "bars">;
  of: RecordPastOf;
  /** Writes former words again; only for its writer. */
  onBringBack?: (text: string) => void;
}) {
  const [past, setPast] = useState<Past>({ status: "unread" });
  const read = async () => {
    setPast({ status: "reading" });
    const answer = await readRecordPastAction({ pieceId: desk.pieceId, ...of }).catch(() => null);
    if (answer?.ok) setPast({ status: "read", changes: answer.value });
    else setPast({ status: "unknown", sentence: answer?.sentence ?? unreachable });
  };
  return (
    <details
      className={styles.past}
      onToggle={(event) => {
        // Each time anew: it may have changed since.
        if (event.currentTarget.open) void read();
      }}
    >
      <summary>Its past</summary>
      {past.status === "reading" && <p>Reading…</p>}
      {past.status === "unknown" && <p>{past.sentence}</p>}
      {past.status === "read" && <PastList desk={desk} changes={past.changes} onBringBack={onBringBack} />}
    </details>
  );
}

/** The changes of one record, the first one first. */
export function PastList({
  desk,
  changes,
  onBringBack,
}: {
  desk: Pick<Desk, "people" | "me" | "bars">;
  changes: readonly RoomChange[];
  onBringBack?: (text: string) => void;
}) {
  return (
    <ol className={styles.list}>
      {changes.map((change, index) => {
        const person = change.userId === null ? null : personOf(desk, change.userId);
        const { words, former } = sayPast(change, changes[index - 1] ?? null, desk);
        return (
          <li key={`${change.sequence} ${change.map} ${change.key}`}>
            {person && <WhoMark ink={inkOf(person.role)} initial={person.initial} />}
            <div>
              {words} <Moment iso={change.at} />
              {former !== null && (
                <>
                  <br />
                  It said <q>{former}</q>{" "}
                  {onBringBack && (
                    <Button kind="bare" small onClick={() => onBringBack(former)}>
                      Bring these words back
                    </Button>
                  )}
                </>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
