"use client";

import { useState } from "react";
import { saveTextFile } from "@/app/_offline/save-text-file";
import { sayRoomStatus } from "@/app/_room/say-room-status";
import { Button } from "@/app/_ui/button";
import styles from "./room-line.module.css";
import { useRoomHere } from "./room-provider";

/** Said only when something is not as it should be: no connection, writings not stored, writings not taken or gone. */
export function RoomLine() {
  const room = useRoomHere();
  const isQuiet = room.unsavedCount === 0 && (room.status === "live" || room.status === "connecting");
  if (isQuiet && room.kept.length === 0) return null;
  return (
    <div className={styles.line} role="status">
      {!isQuiet && <p>{sayRoomStatus(room)}</p>}
      {room.kept.length > 0 && <KeptWritings />}
    </div>
  );
}

/** What the room did not take, or no longer has: each can be written again, and all of it saved. */
function KeptWritings() {
  const room = useRoomHere();
  const [problem, setProblem] = useState<string | null>(null);
  const say = (written: { ok: true } | { ok: false; sentence: string }) =>
    setProblem(written.ok ? null : written.sentence);
  return (
    <>
      <ul className={styles.kept} aria-label="What you wrote and the room does not have">
        {room.kept.map(({ key, kind, text, sentence }) => (
          <li key={key}>
            {sentence} {text ? <q>{text}</q> : `It is a ${kind}.`}{" "}
            <Button kind="bare" small onClick={() => say(room.writeKeptAgain(key))}>
              Write it again
            </Button>
            <Button kind="bare" small onClick={() => room.dismissKept(key)}>
              Let it go
            </Button>
          </li>
        ))}
      </ul>
      {problem && <p>{problem}</p>}
      <p>
        {room.kept.length > 1 && (
          <Button kind="bare" small onClick={() => say(room.writeAllKeptAgain())}>
            Write all again
          </Button>
        )}
        <Button kind="bare" small onClick={() => saveTextFile("kept-writings.json", room.exportKept())}>
          Save as a file
        </Button>
      </p>
    </>
  );
}
