"use client";

import { useEffect, useRef, useState } from "react";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { fetchPassage, PassageFailure, type PassageToDraw } from "./fetch-passage";

export interface PassageHere {
  /** What was drawn last: while another is drawn, the one before it stays. */
  readonly passage: DrawnPassage | null;
  /** Of the question that `passage` answers. */
  readonly drawn: PassageToDraw | null;
  readonly isWorking: boolean;
  /** A sentence when it could not be drawn. */
  readonly problem: string | null;
  readonly retry: () => void;
}

interface Drawn {
  readonly passage: DrawnPassage;
  readonly asked: PassageToDraw;
}

/** Draws a passage, again whenever the question changes. Null asks nothing yet. */
export function usePassage(question: PassageToDraw | null): PassageHere {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [isWorking, setWorking] = useState(false);
  const [turn, setTurn] = useState(0);
  // An equal question in a new object is not another question.
  const written = question && JSON.stringify(question);
  const asked = useRef(question);
  asked.current = question;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new turn is a reason to ask again
  useEffect(() => {
    const wanted = asked.current;
    if (written === null || !wanted) return;
    const leaving = new AbortController();
    setWorking(true);
    setProblem(null);
    fetchPassage(wanted, leaving.signal)
      .then((passage) => {
        if (leaving.signal.aborted) return;
        setDrawn({ passage, asked: wanted });
        setWorking(false);
      })
      .catch((error: unknown) => {
        if (leaving.signal.aborted) return;
        setWorking(false);
        if (!(error instanceof PassageFailure)) throw error;
        setProblem(error.message);
      });
    return () => leaving.abort();
  }, [written, turn]);
  return {
    passage: drawn?.passage ?? null,
    drawn: drawn?.asked ?? null,
    isWorking,
    problem,
    retry: () => setTurn((last) => last + 1),
  };
}
