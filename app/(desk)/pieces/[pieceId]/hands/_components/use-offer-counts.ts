"use client";

import { useCallback, useEffect, useState } from "react";
import { StudyFailure } from "@/app/_study/study-client";
import { useStudy } from "@/app/_study/study-provider";
import type { SuggestQuestion } from "@/lib/study/suggest-rewrites";
import type { Bars } from "./passage-state";

/** What holds for all the passages that are asked about. */
export type OfferTerms = Omit<SuggestQuestion, "fromBar" | "toBar">;

const keyOf = (terms: OfferTerms, { fromBar, toBar }: Bars) => JSON.stringify({ ...terms, fromBar, toBar });

/**
 * How many rewrites there are for each passage, looked for one passage after another while nothing else is asked.
 *
 * @param isIdle whether the reader waits for nothing: what is in front comes first.
 * @returns the number for some bars; null while it is not known.
 */
export function useOfferCounts(
  terms: OfferTerms | null,
  passages: readonly Bars[],
  isIdle: boolean,
): (bars: Bars) => number | null {
  const { study } = useStudy();
  const [counts, setCounts] = useState<ReadonlyMap<string, number>>(new Map());
  const written = JSON.stringify({
    terms,
    bars: passages.map(({ fromBar, toBar }) => ({ fromBar, toBar })),
  });
  useEffect(() => {
    const asked = JSON.parse(written) as { terms: OfferTerms | null; bars: Bars[] };
    if (!study || !isIdle || asked.terms === null) return;
    const leaving = new AbortController();
    const all = asked.terms;
    const askAll = async () => {
      for (const bars of asked.bars) {
        const question = { ...all, ...bars };
        const { offers } = await study.ask<"rewrite">(
          { kind: "rewrite", question },
          { signal: leaving.signal },
        );
        setCounts((before) => new Map(before).set(keyOf(all, bars), offers.length));
      }
    };
    askAll().catch((error: unknown) => {
      if (!leaving.signal.aborted && !(error instanceof StudyFailure)) throw error;
    });
    return () => leaving.abort();
  }, [study, isIdle, written]);
  const writtenTerms = JSON.stringify(terms);
  return useCallback(
    (bars) => {
      const about = JSON.parse(writtenTerms) as OfferTerms | null;
      return about === null ? null : (counts.get(keyOf(about, bars)) ?? null);
    },
    [counts, writtenTerms],
  );
}
