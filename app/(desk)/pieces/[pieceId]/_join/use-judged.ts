"use client";

import type { Desk } from "@/app/_data/desk/desk";
import { useAnswer } from "@/app/_study/use-answer";
import { isSameSpan } from "@/lib/score/cut-span";
import type { JudgedCut } from "@/lib/study/judge-cut";
import { type CutEnds, type OverAgreed, questionOf } from "../_cuts/cut-questions";

export interface Judging {
  /** Of exactly this cut; null until it is there. */
  readonly judged: JudgedCut | null;
  readonly isWorking: boolean;
  /** A sentence when it cannot be judged. */
  readonly problem: string | null;
}

/** How a cut sounds and what it does to the needed rests. Null ends ask nothing. */
export function useJudged(
  desk: Pick<Desk, "cuts" | "needs">,
  ends: CutEnds | null,
  number: number | null,
  overAgreed?: OverAgreed,
): Judging {
  const question = ends && questionOf(desk, ends, number, overAgreed);
  const { value, isWorking, problem } = useAnswer<"judge">(question && { kind: "judge", question });
  const isOfThis = value?.ok && question && isSameSpan(value.value.cut, question.cut);
  return {
    judged: isOfThis ? value.value : null,
    isWorking: isWorking || (question !== null && value === null && problem === null),
    problem: problem ?? (value && !value.ok && !isWorking ? value.problem.sentence : null),
  };
}
