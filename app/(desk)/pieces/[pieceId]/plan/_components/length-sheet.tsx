"use client";

import type { Dispatch } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Evidence } from "@/app/_ui/evidence";
import { LargeMeter, type LargeMeterTime } from "@/app/_ui/meter/large-meter";
import { inkOf } from "@/app/_ui/party";
import { Sheet } from "@/app/_ui/sheet";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./length-sheet.module.css";
import { LengthSlider } from "./length-slider";
import { LimitForm } from "./limit-form";
import { findNothingToPlan } from "./plan-question";
import type { ShownSet } from "./plan-sets";
import type { PlanMove } from "./plan-state";
import { sayAgreed, sayRange, saySpare } from "./plan-words";
import type { PlanView } from "./use-plan";
import type { PlanState } from "./wishes";

/** How long the piece runs: as written, as agreed, with the set that is looked at; and the slider through all lengths. */
export function LengthSheet({
  desk,
  state,
  view,
  set,
  move,
}: {
  desk: Desk;
  state: PlanState;
  view: PlanView | null;
  set: ShownSet;
  move: Dispatch<PlanMove>;
}) {
  const { limitSeconds } = desk;
  const range = rangeOf(desk, view, set);
  const isPlanned = set.cuts.length > 0;
  return (
    <Sheet className={styles.sheet} aria-labelledby="length-heading">
      <div className={styles.figures}>
        <h2 id="length-heading">Running time{isPlanned ? ", with this plan" : ""}</h2>
        <p className={styles.figure}>
          {sayClock(set.runs)}
          {limitSeconds !== null && <span>of {sayClock(limitSeconds)}</span>}
        </p>
        {limitSeconds !== null && (
          <p className={styles.say}>
            <b>{saySpare({ runs: set.runs, high: range.high }, limitSeconds, state.wishes.isCareful)}</b>
          </p>
        )}
        <Evidence summary={`On stage expect ${sayRange(range)}`}>
          <p>
            {view?.weighed?.runningTime.sentence ?? desk.agreed.sentence} Every length in this plan comes from
            the same tempi, repeats counted.
          </p>
        </Evidence>
        <LimitForm
          key={limitSeconds}
          pieceId={desk.pieceId}
          limitSeconds={limitSeconds}
          mayChange={desk.may.propose}
          onSaved={() => move({ kind: "best" })}
        />
      </div>
      <div className={styles.drawing}>
        <LargeMeter times={meterTimes(desk, set, range)} limit={limitSeconds} ink={inkOf(desk.me.role)} />
        {findNothingToPlan(desk) === null && (
          <div className={styles.slider}>
            {view && view.sets.steps.length > 1 && (
              <LengthSlider
                sets={view.sets}
                looked={view.looked}
                limitSeconds={limitSeconds}
                hasAgreed={sayAgreed(desk.cuts) !== null}
                onStep={(step) => move({ kind: "length", saves: view.sets.steps[step]?.saves ?? 0 })}
              />
            )}
          </div>
        )}
      </div>
    </Sheet>
  );
}

/**
 * The range of the set that is looked at. Until it is worked out, the range of what is agreed in proportion: the spread
 * of a piece hardly changes with a cut.
 */
function rangeOf({ agreed }: Desk, view: PlanView | null, { runs }: ShownSet) {
  const known = view?.weighed?.runningTime;
  if (known && !view.isWeighing && Math.abs(known.seconds - runs) < 0.05) return known;
  const share = agreed.seconds > 0 ? runs / agreed.seconds : 1;
  return { seconds: runs, low: agreed.low * share, high: agreed.high * share };
}

function meterTimes(
  { asWritten, agreed, cuts }: Desk,
  { runs }: ShownSet,
  { low, high }: { low: number; high: number },
): LargeMeterTime[] {
  const hasAgreed = sayAgreed(cuts) !== null;
  return [
    { kind: "written", label: "As written", time: asWritten },
    { kind: "agreed", label: hasAgreed ? "Agreed" : "Agreed: no cuts yet", time: agreed },
    {
      kind: "open",
      label: "With this plan",
      time: { seconds: runs, low, high },
    },
  ];
}
