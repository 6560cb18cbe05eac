"use client";

import { useState } from "react";
import type { HistoryDesk } from "@/app/_data/desk/read-history";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SayProblem } from "@/app/_ui/say";
import type { Restoration } from "@/lib/room/history/find-restoration";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import { useRoomHere } from "../../_components/room-provider";
import styles from "./bring-back.module.css";
import { sayLeftToOthers, sayWrite } from "./say-write";

/** Brings a former state back: first it is said what will be written and what is left to others, then it is written. */
export function BringBack({ desk, records }: { desk: HistoryDesk; records: RoomRecordsAt }) {
  const room = useRoomHere();
  const announce = useAnnounce();
  const [plan, setPlan] = useState<Restoration | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [isDone, setIsDone] = useState(false);
  if (!desk.may.comment) return null;
  const look = () => {
    setIsDone(false);
    const planned = room.planRestoration(records);
    setProblem(planned === null ? "The room is not open yet. Try again in a moment." : null);
    setPlan(planned);
  };
  const write = () => {
    // Looked at again: somebody may have written since.
    const planned = room.planRestoration(records);
    if (planned === null) return;
    const written = room.restoreWrites(planned.writes);
    setProblem(written.ok ? null : written.sentence);
    if (!written.ok) return;
    setPlan(null);
    setIsDone(true);
    announce("Brought back.");
  };
  return (
    <div className={styles.bring}>
      {problem && <SayProblem>{problem}</SayProblem>}
      {isDone && (
        <p>
          <b>Brought back,</b> as new changes in your name. They stand in the history and can be undone in the
          same way.
        </p>
      )}
      {plan === null ? (
        <Button onClick={look}>Bring this back</Button>
      ) : (
        <Plan desk={desk} plan={plan} then={records} onWrite={write} onLeave={() => setPlan(null)} />
      )}
    </div>
  );
}

function Plan({
  desk,
  plan: { writes, leftToOthers },
  then,
  onWrite,
  onLeave,
}: {
  desk: HistoryDesk;
  plan: Restoration;
  then: RoomRecordsAt;
  onWrite: () => void;
  onLeave: () => void;
}) {
  const left = sayLeftToOthers(leftToOthers, desk);
  return (
    <section aria-label="What bringing this back does">
      {writes.length === 0 ? (
        <p>
          {left.length === 0
            ? "Nothing differs: the room is as it was."
            : "Nothing of what differs is yours to bring back."}
        </p>
      ) : (
        <>
          <h3>You will write</h3>
          <ul>
            {[...new Set(writes.map((write) => sayWrite(write, desk, then)))].map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
      {left.length > 0 && (
        <>
          <h3>Left to others</h3>
          <ul>
            {left.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
      <div className={styles.buttons}>
        {writes.length > 0 && (
          <Button kind="settle" onClick={onWrite}>
            Bring it back
          </Button>
        )}
        <Button kind="bare" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </section>
  );
}
