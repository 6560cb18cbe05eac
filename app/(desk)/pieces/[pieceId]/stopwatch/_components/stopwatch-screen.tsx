"use client";

import { useEffect, useMemo, useRef, useState } from "react";
import type { StopwatchView } from "@/app/_data/occasions/stopwatch-view";
import { type Run, type RunStart, startRun } from "@/app/_stopwatch/run";
import { SteadyClock } from "@/app/_stopwatch/steady-clock";
import { useRuns } from "@/app/_stopwatch/use-runs";
import { useAnnounce } from "@/app/_ui/announcer";
import { SayProblem } from "@/app/_ui/say";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { KeepRun } from "./keep-run";
import { KeptResult } from "./kept-result";
import { RunningWatch } from "./running-watch";
import { StartRun } from "./start-run";
import styles from "./stopwatch.module.css";

/**
 * One stopwatch at a time: chosen, running, looked at and written down. From the first moment on it is kept on the
 * device, so that a reload or a locked screen loses nothing.
 */
export function StopwatchScreen({ view }: { view: StopwatchView }) {
  const { runs, kept } = useRuns(view.userId);
  const clock = useMemo(() => new SteadyClock(), []);
  const begunHere = useRef(new Set<string>());
  const [isKept, setIsKept] = useState(true);
  const [done, setDone] = useState<PerformanceRecord | null>(null);
  const announce = useAnnounce();
  // One that is on its way is told of by the line at the top of every screen.
  const run = runs?.find(({ pieceId, target }) => pieceId === view.pieceId && target === null) ?? null;
  // A browser without a storage keeps it in this page alone.
  const [loose, setLoose] = useState<Run | null>(null);
  const current = run ?? loose;
  const keep = (next: Run) => {
    const slept = clock.hasSlept || !begunHere.current.has(next.runId);
    const told = { ...next, byDeviceClock: next.byDeviceClock || slept };
    const isStored = kept?.keep(told) ?? false;
    setIsKept(isStored);
    setLoose(isStored ? null : told);
  };
  const start = (from: RunStart) => {
    const begun = startRun(from, crypto.randomUUID(), clock.now());
    begunHere.current.add(begun.runId);
    setDone(null);
    keep(begun);
    announce("It runs.");
  };
  const letGo = (runId: string) => {
    kept?.letGo(runId);
    setLoose(null);
  };
  useEffect(() => {
    // The page that a tap brings about is seen from its top.
    if (current?.stoppedAt != null) window.scrollTo(0, 0);
  }, [current?.stoppedAt]);
  if (runs === null) return <main className={styles.page} id="main" aria-busy="true" />;
  return (
    <main className={styles.page} id="main" data-running={current?.stoppedAt === null || undefined}>
      {!isKept && (
        <SayProblem>
          This browser keeps nothing: do not close or reload the page before it is written down.
        </SayProblem>
      )}
      {current === null && done !== null && <KeptResult performance={done} onAgain={() => setDone(null)} />}
      {current === null && done === null && <StartRun view={view} onStart={start} />}
      {current?.stoppedAt === null && <RunningWatch run={current} clock={clock} onChange={keep} />}
      {current != null && current.stoppedAt !== null && (
        <KeepRun
          run={current}
          view={view}
          kept={kept}
          onChange={keep}
          onKept={setDone}
          onThrowAway={() => letGo(current.runId)}
        />
      )}
    </main>
  );
}
