"use client";

import { type Dispatch, useEffect, useMemo, useRef, useState } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnswer } from "@/app/_study/use-answer";
import type { PiecePlan } from "@/lib/study/plan-piece";
import type { WeighedSet } from "@/lib/study/weigh-set";
import { agreedCuts } from "../../_cuts/cut-questions";
import { findNothingToPlan, planQuestion } from "./plan-question";
import { type Looked, listSets, lookAt, type PlanSets } from "./plan-sets";
import type { PlanMove } from "./plan-state";
import type { PlanState, Wishes } from "./wishes";

/** The plan as far as it is worked out. */
export interface PlanView {
  readonly plan: PiecePlan;
  readonly sets: PlanSets;
  readonly looked: Looked;
  /** The figures of the set that is looked at; of the one before for the moment in which they are worked out. */
  readonly weighed: WeighedSet | null;
  readonly isWeighing: boolean;
}

export interface PlanHere {
  readonly view: PlanView | null;
  readonly isWorking: boolean;
  /** From 0 to 1. */
  readonly done: number;
  readonly problem: string | null;
  /** Nobody waits for the search any more. */
  readonly isStopped: boolean;
  readonly stop: () => void;
  readonly goOn: () => void;
}

/** Asks the study for the plan and for the figures of the set that is looked at. */
export function usePlan(desk: Desk, { wishes, choice }: PlanState, move: Dispatch<PlanMove>): PlanHere {
  const [isStopped, setIsStopped] = useState(false);
  const nothing = findNothingToPlan(desk);
  const question = useMemo(() => planQuestion(desk, wishes), [desk, wishes]);
  const answer = useAnswer<"plan">(nothing !== null || isStopped ? null : { kind: "plan", question });
  const plan = answer.value;
  const answered = useAnswered(plan, wishes);
  const stands = desk.agreed.seconds;
  const sets = useMemo(() => plan && listSets(plan, stands), [plan, stands]);
  const hasLimit = desk.limitSeconds !== null;
  const looked = useMemo(() => sets && lookAt(sets, choice, hasLimit), [sets, choice, hasLimit]);
  const { weighed, isWeighing } = useWeighedSet(desk, looked);
  const view = useMemo(
    () => (plan && sets && looked ? { plan, sets, looked, weighed, isWeighing } : null),
    [plan, sets, looked, weighed, isWeighing],
  );
  // A search that is not waited for gives way to the wishes before it, where these were answered.
  const stop = () => {
    if (plan && answered.current) move({ kind: "wish-anew", wishes: answered.current });
    else setIsStopped(true);
  };
  return {
    view,
    isWorking: answer.isWorking,
    done: answer.done,
    problem: answer.problem,
    isStopped,
    stop,
    goOn: () => setIsStopped(false),
  };
}

/** The wishes that the plan on the screen was made for: those that stood when it came. */
function useAnswered(plan: PiecePlan | null, wishes: Wishes) {
  const answered = useRef<Wishes | null>(null);
  const latest = useRef(wishes);
  latest.current = wishes;
  useEffect(() => {
    if (plan) answered.current = latest.current;
  }, [plan]);
  return answered;
}

function useWeighedSet(desk: Desk, looked: Looked | null): Pick<PlanView, "weighed" | "isWeighing"> {
  const question = useMemo(
    () =>
      looked && {
        cuts: looked.set.cuts.map(({ from, to }) => ({ from, to })),
        agreed: agreedCuts(desk, null),
        needs: desk.needs,
      },
    [desk, looked],
  );
  const answer = useAnswer<"weigh-set">(question && { kind: "weigh-set", question });
  return { weighed: answer.value, isWeighing: answer.isWorking };
}
