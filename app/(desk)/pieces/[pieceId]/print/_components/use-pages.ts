"use client";

import { useEffect, useState } from "react";
import { z } from "zod";
import { type PagesPlan, pagesPlanSchema } from "@/lib/engrave/pages/pages-plan";

const progressSchema = z.object({ progress: z.number() });
const problemSchema = z.object({ sentence: z.string() });
const lost = "The pages could not be fetched: the connection failed. They come back with it.";

/** How long to wait before asking again how far the pages are. */
const pauseMilliseconds = 500;

export interface Pages {
  /** The pages that were seen last; they stay while others are being made. */
  readonly plan: PagesPlan | null;
  /** From 0 to 1 while pages are being made, else null. */
  readonly progress: number | null;
  readonly problem: string | null;
}

/**
 * The pages under an address, asked for until they are made.
 *
 * @param stamp anything new in it asks again.
 */
export function usePages(address: string, stamp: string): Pages {
  const [pages, setPages] = useState<Pages>({ plan: null, progress: 0, problem: null });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the stamp only says when to ask again
  useEffect(() => {
    const aborter = new AbortController();
    setPages(({ plan }) => ({ plan, progress: 0, problem: null }));
    void follow(address, aborter.signal, (next) =>
      setPages(({ plan }) => ({ progress: null, problem: null, ...next, plan: next.plan ?? plan })),
    );
    return () => aborter.abort();
  }, [address, stamp]);
  return pages;
}

async function follow(
  address: string,
  signal: AbortSignal,
  tell: (next: Partial<Pages>) => void,
): Promise<void> {
  try {
    for (;;) {
      const response = await fetch(address, { signal, cache: "no-store" });
      const body: unknown = await response.json().catch(() => null);
      if (response.status !== 202) {
        tell(
          response.ok ? { plan: pagesPlanSchema.parse(body) } : { problem: sayWhy(response.status, body) },
        );
        return;
      }
      tell({ progress: progressSchema.parse(body).progress });
      await new Promise((resolve) => setTimeout(resolve, pauseMilliseconds));
      if (signal.aborted) return;
    }
  } catch {
    if (!signal.aborted) tell({ problem: lost });
  }
}

function sayWhy(status: number, body: unknown): string {
  const told = problemSchema.safeParse(body);
  return told.success ? told.data.sentence : `The pages could not be made (${status}).`;
}
