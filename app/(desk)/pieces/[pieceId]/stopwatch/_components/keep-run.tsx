"use client";

import { type FormEvent, useState } from "react";
import type { StopwatchView } from "@/app/_data/occasions/stopwatch-view";
import type { KeptRuns } from "@/app/_stopwatch/kept-runs";
import { type Run, type RunTarget, timingsOf, undoRun } from "@/app/_stopwatch/run";
import { sendRun } from "@/app/_stopwatch/send-run";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { EditionStamp } from "@/app/_ui/edition-stamp";
import { SelectField, TextArea, TextField } from "@/app/_ui/field";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { sayShortDay } from "@/app/_ui/say-short-day";
import { Sheet } from "@/app/_ui/sheet";
import { SectionTimes } from "@/app/(desk)/_performances/section-times";
import { recordRunAction } from "@/app/(desk)/pieces/[pieceId]/actions/record-run";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import styles from "./stopwatch.module.css";

/** After the last tap: what it took, and what it is written down as. */
export function KeepRun({
  run,
  view,
  kept,
  onChange,
  onKept,
  onThrowAway,
}: {
  run: Run;
  view: StopwatchView;
  kept: KeptRuns | null;
  onChange: (run: Run) => void;
  onKept: (performance: PerformanceRecord) => void;
  onThrowAway: () => void;
}) {
  const announce = useAnnounce();
  const [isBusy, setIsBusy] = useState(false);
  const [isAsked, setIsAsked] = useState(false);
  const [performanceId, setPerformanceId] = useState(run.performanceId ?? "");
  const [problem, setProblem] = useState<string | null>(run.refusal);
  const fitting = view.performances.filter(({ editionNumber }) => editionNumber === run.editionNumber);
  const chosen = fitting.find(({ id }) => id === performanceId) ?? null;
  const write = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const text = (name: string) => String(form.get(name) ?? "").trim();
    const target: RunTarget = {
      performanceId: chosen?.id ?? null,
      name: chosen?.name ?? (text("name") || "Run-through"),
      ...{ place: text("place"), remarks: text("remarks") },
    };
    if (kept === null) return;
    setIsBusy(true);
    setProblem(null);
    const sent = await sendRun(kept, { ...run, target, refusal: null }, recordRunAction);
    setIsBusy(false);
    if (sent.kind === "kept") {
      announce("Written down.");
      return onKept(sent.performance);
    }
    if (sent.kind === "refused") {
      setProblem(sent.sentence);
      return onChange({ ...run, refusal: sent.sentence });
    }
    // From here on it goes by itself, as soon as there is a connection.
    kept.keep({ ...run, target, refusal: null });
    announce("Not sent. It stays here and goes when you are back.");
  };
  const hasTimes = run.taps.length > 0;
  return (
    <Sheet className={styles.result}>
      <header className={styles.startHead}>
        <h1>Planned and real</h1>
        <EditionStamp number={run.editionNumber} />
      </header>
      <SectionTimes
        sections={timingsOf(run)}
        limitSeconds={chosen ? chosen.limitSeconds : run.limitSeconds}
        byDeviceClock={run.byDeviceClock}
        take={null}
      />
      <p className={styles.undo}>
        <Button small onClick={() => onChange(undoRun(run))}>
          <Icon name="take-back" /> Undo last tap, it still runs
        </Button>
      </p>
      {hasTimes && (
        <form className={styles.form} onSubmit={write}>
          <SelectField
            label="Write it down as"
            value={chosen?.id ?? ""}
            onChange={(event) => setPerformanceId(event.target.value)}
          >
            <option value="">a run-through of its own</option>
            {fitting.map(({ id, name, on }) => (
              <option key={id} value={id}>
                {name}, {sayShortDay(on)}
              </option>
            ))}
          </SelectField>
          {chosen === null && (
            <div className={styles.pair}>
              <TextField label="Name" name="name" maxLength={200} defaultValue="Run-through" />
              <TextField label="Where" name="place" maxLength={200} />
            </div>
          )}
          <TextArea label="To remember" name="remarks" maxLength={2000} />
          {problem && <SayProblem>{problem}</SayProblem>}
          <Button type="submit" kind="settle" className={styles.big} disabled={isBusy}>
            Write it down
          </Button>
        </form>
      )}
      <p className={styles.undo}>
        {isAsked ? (
          <>
            <span>These times are nowhere else.</span>
            <Button small onClick={onThrowAway}>
              Throw them away
            </Button>
            <Button small kind="bare" onClick={() => setIsAsked(false)}>
              Keep them
            </Button>
          </>
        ) : (
          <Button small kind="bare" onClick={() => setIsAsked(true)}>
            Throw away…
          </Button>
        )}
      </p>
    </Sheet>
  );
}
