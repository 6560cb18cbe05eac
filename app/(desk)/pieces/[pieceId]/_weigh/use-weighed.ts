"use client";

import { useEffect, useState } from "react";
import type { WeighedCut } from "@/app/_data/weigh-new-cut";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { weighCutAction } from "../actions/weigh-cut";

export type Weighing =
  | { readonly status: "weighing"; readonly last: WeighedCut | null }
  | { readonly status: "weighed"; readonly last: WeighedCut }
  | { readonly status: "impossible"; readonly last: null; readonly sentence: string }
  /** The server could not be asked. */
  | { readonly status: "unknown"; readonly last: null; readonly sentence: string };

/** So that the ends can be chosen without a question to the server for each step. */
const pauseMs = 200;

const unknown = {
  status: "unknown",
  last: null,
  sentence: "Times are not known without a connection. You can still pencil it in.",
} as const;

/** What a cut would do, asked of the server a moment after its ends stand still. */
export function useWeighed(
  pieceId: string,
  from: PositionTerms,
  to: PositionTerms,
  number: number | null,
): Weighing {
  const [weighing, setWeighing] = useState<Weighing>({ status: "weighing", last: null });
  const ends = JSON.stringify({ from, to, number });
  useEffect(() => {
    let isOver = false;
    setWeighing(({ last }) => ({ status: "weighing", last }));
    const ask = async () => {
      const answer = await weighCutAction({ pieceId, ...JSON.parse(ends) }).catch(() => null);
      if (isOver) return;
      if (answer === null) return setWeighing(unknown);
      if (answer.ok) return setWeighing({ status: "weighed", last: answer.value });
      setWeighing({ status: "impossible", last: null, sentence: answer.sentence });
    };
    const timer = setTimeout(ask, pauseMs);
    return () => {
      isOver = true;
      clearTimeout(timer);
    };
  }, [pieceId, ends]);
  return weighing;
}
