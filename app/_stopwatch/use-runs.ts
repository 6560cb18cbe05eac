"use client";

import { useKeptItems } from "@/app/_offline/use-kept-items";
import { type KeptRuns, keptRuns } from "./kept-runs";
import type { Run } from "./run";

/**
 * The runs that are kept on this device.
 *
 * @returns `runs` is null until the page is in a browser.
 */
export function useRuns(userId: string): { runs: readonly Run[] | null; kept: KeptRuns | null } {
  const { items, kept } = useKeptItems(keptRuns, userId);
  return { runs: items, kept };
}
