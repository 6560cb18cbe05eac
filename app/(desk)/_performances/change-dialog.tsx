"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { changePerformanceAction } from "@/app/(desk)/pieces/[pieceId]/actions/change-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./dialog-form.module.css";
import { PerformanceFields } from "./performance-fields";
import { readLog, type WrongClock } from "./read-log";

/** Writes anew what was logged. What stands there now stays in the performance's history. */
export function ChangeDialog({
  performance,
  lastEdition,
  today,
  onClose,
}: {
  /** As it was when the dialog opened: nobody writes over what they have not seen. */
  performance: PerformanceRecord;
  lastEdition: number;
  today: string;
  onClose: () => void;
}) {
  const [stood] = useState(performance);
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const [wrongClock, setWrongClock] = useState<WrongClock | null>(null);
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    // What lies ahead has no field for them yet.
    if (!form.has("result")) form.set("result", stood.result);
    const read = readLog(form, stood.realSeconds);
    setWrongClock(read.ok ? null : read.problem);
    if (!read.ok) return;
    const { id: performanceId, pieceId, revision } = stood;
    const changed = await run(changePerformanceAction, {
      ...{ ...read.value, pieceId, performanceId, revision },
      editionWasWrong: form.has("editionWasWrong"),
    });
    if (!changed.ok) return;
    announce(`Changed: ${changed.value.name}.`);
    onClose();
  };
  return (
    <Dialog title={stood.name} isOpen onClose={onClose}>
      <form className={styles.form} onSubmit={submit}>
        <PerformanceFields
          lastEdition={Math.max(lastEdition, stood.editionNumber)}
          limitSeconds={null}
          stood={stood}
          today={today}
          wrongClock={wrongClock}
        />
        {problem && <SayProblem>{problem}</SayProblem>}
        <p className={styles.buttons}>
          <Button type="submit" kind="settle" disabled={isBusy}>
            Write it down
          </Button>
          <Button kind="bare" onClick={onClose}>
            Not now
          </Button>
        </p>
      </form>
    </Dialog>
  );
}
