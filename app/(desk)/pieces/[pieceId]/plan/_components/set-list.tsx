"use client";

import { type Dispatch, memo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { nameSpan } from "@/app/_ui/name-span";
import { Sheet } from "@/app/_ui/sheet";
import { isSameSpan } from "@/lib/score/cut-span";
import { sayClock } from "@/lib/score/say-clock";
import type { CutEnds } from "../../_cuts/cut-questions";
import { keyOfCut, numberCuts } from "./draft-strip";
import { ObstacleSheet } from "./obstacle-sheet";
import { areEndsHere } from "./plan-question";
import type { PlanMove } from "./plan-state";
import { sayAgreed, sayWhatIsCut } from "./plan-words";
import { PlannedCutCard } from "./planned-cut-card";
import styles from "./set-list.module.css";
import type { PlanView } from "./use-plan";
import type { Wishes } from "./wishes";

/** The set that is looked at, cut by cut, and what was kept or left out on the way to it. */
export const SetList = memo(function SetList({
  desk,
  wishes,
  view,
  move,
}: {
  desk: Desk;
  wishes: Wishes;
  view: PlanView;
  move: Dispatch<PlanMove>;
}) {
  const { looked, weighed, plan } = view;
  const { cuts } = looked.set;
  const agreed = sayAgreed(desk.cuts);
  const numbers = numberCuts(desk, cuts);
  const weightOf = (at: number) => {
    const cut = cuts[at];
    return weighed?.cuts.find((one) => cut && isSameSpan(one.cut, cut)) ?? null;
  };
  return (
    <>
      {plan.plan.obstacle && <ObstacleSheet desk={desk} plan={plan} move={move} wishes={wishes} />}
      <Sheet className={styles.head}>
        <div>
          <h2>{sayWhatIsCut(looked.set, agreed !== null)}</h2>
          <p>{sayAbout(desk, view, agreed)}</p>
        </div>
        {view.sets.bestStep !== null && !looked.isBest && desk.limitSeconds !== null && (
          <Button small onClick={() => move({ kind: "best" })}>
            Back to the best for {sayClock(desk.limitSeconds)}
          </Button>
        )}
      </Sheet>
      <ul className={styles.list} aria-label="Cuts of this plan">
        {cuts.map((cut, index) => (
          <li key={keyOfCut(cut)}>
            <PlannedCutCard
              desk={desk}
              cut={cut}
              others={cuts.filter((other) => other !== cut)}
              number={numbers[index] ?? 0}
              weight={weightOf(index)}
              move={move}
            />
          </li>
        ))}
      </ul>
      <Constraints desk={desk} wishes={wishes} move={move} />
    </>
  );
});

/** What kind of set it is, in a sentence under its heading. */
function sayAbout({ limitSeconds }: Desk, { looked, plan }: PlanView, agreed: string | null): string {
  if (plan.candidates.length === 0) return "No tutti offers a cut that keeps all this. Wish for less.";
  const beside = agreed === null ? "" : `, ${agreed}`;
  if (looked.isBest) {
    if (looked.set.cuts.length === 0) return plan.plan.sentence;
    return `Of all that fit the limit, the best by your wishes${beside}.`;
  }
  if (looked.other !== null) return `Another set that fits the limit${beside}.`;
  if (looked.set.cuts.length > 0) return `The best of all sets as long as this${beside}.`;
  if (limitSeconds === null) return "No limit is set. Move the slider to see the best set for each length.";
  return agreed === null ? "As it is written." : `As it stands${beside}.`;
}

/** What is kept and what was left out, each with its undo. */
function Constraints({ desk, wishes, move }: { desk: Desk; wishes: Wishes; move: Dispatch<PlanMove> }) {
  const named = (list: readonly CutEnds[]) =>
    list
      .filter((ends) => areEndsHere(desk, ends))
      .map((ends) => ({ ends, name: nameSpan(desk.bars, ends.from, ends.to) }));
  const [kept, leftOut] = [named(wishes.kept), named(wishes.leftOut)];
  if (kept.length + leftOut.length === 0) return null;
  return (
    <Sheet className={styles.constraints}>
      <h3>Your say in this plan</h3>
      <ul>
        {kept.map(({ ends, name }) => (
          <li key={name}>
            <span>
              <b>Kept:</b> {name} are played
            </span>
            <Button
              small
              kind="bare"
              aria-label={`Undo: keep ${name}`}
              onClick={() => move({ kind: "let-go", ends })}
            >
              Undo
            </Button>
          </li>
        ))}
        {leftOut.map(({ ends, name }) => (
          <li key={name}>
            <span>
              <b>Left out:</b> the cut of {name}
            </span>
            <Button
              small
              kind="bare"
              aria-label={`Undo: leave out the cut of ${name}`}
              onClick={() => move({ kind: "take-in", ends })}
            >
              Undo
            </Button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
