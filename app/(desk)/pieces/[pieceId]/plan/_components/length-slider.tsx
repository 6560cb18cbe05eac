"use client";

import { type CSSProperties, useId } from "react";
import { sayClock } from "@/lib/score/say-clock";
import { JoinSeam } from "../../_join/join-seam";
import { sayGrade } from "../../_join/join-words";
import styles from "./length-slider.module.css";
import { gradeRuns, type Looked, type PlanSets } from "./plan-sets";
import { sayStep } from "./plan-words";

/** From "play everything" to "as short as it gets", one set a step; the best for the limit is marked. */
export function LengthSlider({
  sets: { steps, bestStep },
  looked,
  limitSeconds,
  hasAgreed,
  onStep,
}: {
  sets: PlanSets;
  looked: Looked;
  limitSeconds: number | null;
  hasAgreed: boolean;
  onStep: (step: number) => void;
}) {
  const id = useId();
  const last = steps.length - 1;
  const [first, shortest] = [steps[0], steps[last]];
  if (!first || !shortest) return null;
  const says = sayStep(looked.set, hasAgreed);
  const share = (step: number) => ({ "--at": last === 0 ? 0 : step / last }) as CSSProperties;
  return (
    <div className={styles.slider}>
      <div className={styles.ends} aria-hidden="true">
        <span>
          {hasAgreed ? "No further cut" : "Play everything"} <b>{sayClock(first.runs)}</b>
        </span>
        <output htmlFor={id} className={styles.now}>
          {says}
        </output>
        <span>
          As short as it gets <b>{sayClock(shortest.runs)}</b>
        </span>
      </div>
      <div className={styles.track}>
        {bestStep !== null && (
          <span className={styles.best} style={share(bestStep)} data-here={looked.isBest || undefined}>
            best for {limitSeconds === null ? "" : sayClock(limitSeconds)}
          </span>
        )}
        <input
          id={id}
          type="range"
          min={0}
          max={last}
          step={1}
          value={looked.step}
          aria-label="Length, from play everything to as short as it gets"
          aria-valuetext={looked.isBest ? `${says}, the best for the limit` : says}
          onChange={(event) => onStep(Number(event.target.value))}
        />
        <div className={styles.runs} aria-hidden="true">
          {gradeRuns(steps).map((run) => (
            <span
              key={run.first}
              style={
                {
                  "--from": Math.max(0, (run.first - 0.5) / last),
                  "--to": Math.min(1, (run.last + 0.5) / last),
                } as CSSProperties
              }
            >
              {run.grade && (
                <>
                  <JoinSeam grade={run.grade} small />
                  <i>{sayGrade(run.grade)}</i>
                </>
              )}
            </span>
          ))}
        </div>
      </div>
    </div>
  );
}
