"use client";

import { type Dispatch, memo } from "react";
import { Sheet } from "@/app/_ui/sheet";
import { sayClock } from "@/lib/score/say-clock";
import { JoinSeam } from "../../_join/join-seam";
import styles from "./other-sets.module.css";
import type { Looked, PlanSets, ShownSet } from "./plan-sets";
import type { PlanMove } from "./plan-state";
import { countCuts, sayDifference } from "./plan-words";

/** Other sets that fit, each by what it does otherwise than the best; a press looks at it. */
export const OtherSets = memo(function OtherSets({
  limitSeconds,
  sets,
  looked,
  move,
}: {
  limitSeconds: number | null;
  sets: PlanSets;
  looked: Looked;
  move: Dispatch<PlanMove>;
}) {
  const best = sets.bestStep === null ? null : (sets.steps[sets.bestStep] ?? null);
  if (!best) return null;
  return (
    <Sheet className={styles.panel} aria-labelledby="others-heading">
      <h2 id="others-heading">Other sets that fit</h2>
      <ul>
        <li>
          <SetButton
            set={best}
            isPressed={looked.isBest}
            words={`the best for ${limitSeconds === null ? "this" : sayClock(limitSeconds)}: ${countCuts(best.cuts.length)}`}
            onChoose={() => move({ kind: "best" })}
          />
        </li>
        {sets.others.map((set, index) => (
          <li key={set.cuts.map(({ name }) => name).join(" ")}>
            <SetButton
              set={set}
              isPressed={looked.other === index}
              words={sayDifference(set, best)}
              onChoose={() => move({ kind: "other", index })}
            />
          </li>
        ))}
      </ul>
    </Sheet>
  );
});

function SetButton({
  set,
  words,
  isPressed,
  onChoose,
}: {
  set: ShownSet;
  words: string;
  isPressed: boolean;
  onChoose: () => void;
}) {
  return (
    <button type="button" className={styles.set} aria-pressed={isPressed} onClick={onChoose}>
      <b>{sayClock(set.runs)}</b>
      {set.grade ? <JoinSeam grade={set.grade} small /> : <span />}
      <span>{words}</span>
    </button>
  );
}
