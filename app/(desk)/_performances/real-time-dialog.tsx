"use client";

import { type FormEvent, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Dialog } from "@/app/_ui/dialog";
import { TextArea, TextField } from "@/app/_ui/field";
import { SayProblem } from "@/app/_ui/say";
import { useAction } from "@/app/(desk)/pieces/[pieceId]/_components/use-action";
import { recordRealTimeAction } from "@/app/(desk)/pieces/[pieceId]/actions/record-real-time";
import { sayClock } from "@/lib/score/say-clock";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./dialog-form.module.css";
import { ResultField } from "./performance-fields";
import { clockProblem, finer, readTypedClock } from "./read-log";
import { sayAgainstPlan } from "./say-performance";

/** How long a performance really took, and what to change. What stood there before is kept in the trail. */
export function RealTimeDialog({
  performance,
  onClose,
}: {
  performance: PerformanceRecord;
  onClose: () => void;
}) {
  const { run, isBusy, problem } = useAction();
  const announce = useAnnounce();
  const [isWrong, setIsWrong] = useState(false);
  const { id, pieceId, name, realSeconds, plannedSeconds, remarks, result } = performance;
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const typed = readTypedClock(String(form.get("real")));
    setIsWrong(typed === "wrong");
    if (typed === "wrong") return;
    const recorded = await run(recordRealTimeAction, {
      ...{ pieceId, performanceId: id, realSeconds: finer(typed, realSeconds) },
      ...{ remarks: String(form.get("remarks")), result: String(form.get("result")) },
    });
    if (!recorded.ok) return;
    announce(typed === null ? "Written down." : `Written down: ${sayAgainstPlan(typed, plannedSeconds)}.`);
    onClose();
  };
  return (
    <Dialog title={name} isOpen onClose={onClose}>
      <form className={styles.form} onSubmit={submit}>
        <TextField
          label="Time by the clock"
          name="real"
          inputMode="numeric"
          defaultValue={realSeconds === null ? "" : sayClock(realSeconds)}
          placeholder={sayClock(plannedSeconds)}
          hint={`From the first sound to the last. Planned: ${sayClock(plannedSeconds)}.`}
          problem={isWrong ? clockProblem : null}
        />
        <ResultField stood={result} />
        <TextArea label="To remember" name="remarks" maxLength={2000} defaultValue={remarks} />
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
