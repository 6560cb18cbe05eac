"use client";

import { useCallback, useEffect } from "react";
import { useWakeLock } from "@/app/_read/use-wake-lock";
import {
  behindPlan,
  canUndo,
  isLastSection,
  type Run,
  sectionOf,
  stopRun,
  tapRun,
  undoRun,
} from "@/app/_stopwatch/run";
import type { SteadyClock } from "@/app/_stopwatch/steady-clock";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SectionName } from "@/app/(desk)/_performances/section-times";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./stopwatch.module.css";
import { useNow } from "./use-now";

/** While it runs: where one is, one great zone to tap, and the way back from a wrong tap. */
export function RunningWatch({
  run,
  clock,
  onChange,
}: {
  run: Run;
  clock: SteadyClock;
  onChange: (run: Run) => void;
}) {
  const now = useNow(clock);
  const isAwake = useWakeLock();
  const announce = useAnnounce();
  const index = sectionOf(run);
  const section = run.sections[index];
  const next = run.sections[index + 1];
  const isLast = isLastSection(run);
  const tap = useCallback(() => {
    const tapped = tapRun(run, clock.now());
    if (tapped === run) return;
    onChange(tapped);
    announce(isLast ? "Ended." : (next?.name ?? ""));
  }, [run, clock, onChange, announce, isLast, next]);
  const undo = useCallback(() => {
    if (canUndo(run)) onChange(undoRun(run));
  }, [run, onChange]);
  useTapKeys(tap, undo);
  if (!section) return null;
  const elapsed = Math.max(0, (now - run.startedAt) / 1000);
  const inSection = Math.max(0, elapsed - (run.taps.at(-1) ?? 0) / 1000);
  return (
    <div className={styles.running}>
      <div className={styles.clocks}>
        <p className={styles.total} role="timer" aria-label="Since the start">
          {sayWholeSeconds(elapsed)}
        </p>
        <p className={styles.against}>
          {run.limitSeconds !== null && <span>of {sayClock(run.limitSeconds)}</span>}
          <span>{sayBehind(run)}</span>
        </p>
      </div>
      <div className={styles.here}>
        <p className={styles.hereName}>
          <SectionName section={section} isLarge />
        </p>
        <p className={styles.hereClock}>
          <b>{sayWholeSeconds(inSection)}</b> <span>planned {sayClock(section.plannedSeconds)}</span>
        </p>
        <progress
          className={styles.progress}
          value={Math.min(inSection, section.plannedSeconds)}
          max={Math.max(section.plannedSeconds, 1)}
          aria-label="Of the planned time of this section"
        />
      </div>
      <button type="button" className={styles.next} onClick={tap}>
        {isLast || !next ? (
          <>
            <small>last note</small>
            <b>End</b>
          </>
        ) : (
          <>
            <small>here begins</small>
            <b>
              <SectionName section={next} isLarge />
            </b>
          </>
        )}
      </button>
      <p className={styles.lower}>
        <Button className={styles.zone} disabled={!canUndo(run)} onClick={undo}>
          <Icon name="take-back" /> Undo last tap
        </Button>
        <Button className={styles.zone} onClick={() => onChange(stopRun(run, clock.now()))}>
          <Icon name="stop" /> Stop
        </Button>
      </p>
      {isAwake === false && (
        <p className={styles.quiet}>The screen may go dark here. The time goes on all the same.</p>
      )}
    </div>
  );
}

/** What a second hand shows: seconds that have passed. */
function sayWholeSeconds(seconds: number): string {
  return sayClock(Math.floor(seconds));
}

function sayBehind(run: Run): string {
  const behind = Math.round(behindPlan(run) ?? 0);
  if (run.taps.length === 0) return "";
  if (behind === 0) return "on plan";
  return behind > 0 ? `${sayClock(behind)} behind plan` : `${sayClock(-behind)} before plan`;
}

/** A pedal and a keyboard: space, page down and right go on, backspace takes back. A button in focus has its own keys. */
function useTapKeys(tap: () => void, undo: () => void): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      const isOnButton = event.target instanceof HTMLElement && event.target.closest("button, a, summary");
      if (event.key === "Backspace") undo();
      else if (["PageDown", "ArrowRight", "ArrowDown"].includes(event.key)) tap();
      else if ([" ", "Enter"].includes(event.key) && !isOnButton) tap();
      else return;
      event.preventDefault();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [tap, undo]);
}
