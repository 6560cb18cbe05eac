"use client";

import { startTransition, useEffect, useRef, useState } from "react";
import { StudyFailure } from "./study-client";
import type { StudyJob, StudyResults } from "./study-message";
import { useStudy } from "./study-provider";

/** An answer on its way. While a changed question is worked on, the answer to the one before it stays. */
export interface Answer<T> {
  readonly value: T | null;
  readonly isWorking: boolean;
  /** From 0 to 1. */
  readonly done: number;
  /** A sentence when it could not be worked out. */
  readonly problem: string | null;
}

const failed = "This could not be judged. The notes are as they were; try it again, or with something else.";

/** Asks the study of the piece, again whenever the question changes. A null question asks nothing. */
export function useAnswer<Kind extends StudyJob["kind"]>(
  job: Extract<StudyJob, { kind: Kind }> | null,
): Answer<StudyResults[Kind]> {
  const { study, state } = useStudy();
  const [answer, setAnswer] = useState<Answer<StudyResults[Kind]>>(nothing);
  // An equal question in a new object is not another question.
  const written = job && JSON.stringify(job);
  const asked = useRef(job);
  asked.current = job;
  useEffect(() => {
    const question = asked.current;
    if (written === null || question === null || !study) {
      if (written === null) setAnswer(nothing);
      return;
    }
    const leaving = new AbortController();
    const { signal } = leaving;
    setAnswer((before) => ({ ...before, isWorking: true, done: 0, problem: null }));
    study
      .ask<Kind>(question, { signal, onProgress: (done) => setAnswer((before) => ({ ...before, done })) })
      .then((value) =>
        // A long answer is put on the page in slices.
        startTransition(() => setAnswer({ value, isWorking: false, done: 1, problem: null })),
      )
      .catch((error: unknown) => {
        if (signal.aborted) return;
        if (!(error instanceof StudyFailure)) throw error;
        setAnswer((before) => ({ ...before, isWorking: false, problem: failed }));
      });
    return () => leaving.abort();
  }, [study, written]);
  const problem = state.kind === "unreadable" ? state.sentence : answer.problem;
  return { ...answer, problem, isWorking: answer.isWorking && problem === null };
}

const nothing = { value: null, isWorking: false, done: 0, problem: null };
