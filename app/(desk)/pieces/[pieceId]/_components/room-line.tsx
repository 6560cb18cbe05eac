"use client";

import { sayRoomStatus } from "@/app/_room/say-room-status";
import { Button } from "@/app/_ui/button";
import styles from "./room-line.module.css";
import { useRoomHere } from "./room-provider";

/** Said only when something is not as it should be: no connection, writings not stored, writings refused. */
export function RoomLine() {
  const room = useRoomHere();
  const isQuiet = room.unsavedCount === 0 && (room.status === "live" || room.status === "connecting");
  if (isQuiet && room.kept.length === 0) return null;
  return (
    <div className={styles.line} role="status">
      {!isQuiet && <p>{sayRoomStatus(room)}</p>}
      {room.kept.map(({ key, text, sentence }) => (
        <p key={key}>
          {sentence} {text && <q>{text}</q>}{" "}
          <Button kind="bare" small onClick={() => room.dismissKept(key)}>
            Let it go
          </Button>
        </p>
      ))}
    </div>
  );
}
