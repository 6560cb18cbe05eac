"use client";

import { useCallback, useEffect, useMemo, useState } from "react";
import { browserStorage, KeptRuns, onRunsChanged } from "./kept-runs";
import type { Run } from "./run";

/** Nothing is kept by this one: for browsers without a storage. */
const nowhere = { length: 0, key: () => null, getItem: () => null, setItem: refuse, removeItem: () => {} };

function refuse(): never {
  throw new Error("this browser keeps nothing");
}

/**
 * The runs that are kept on this device.
 *
 * @returns `runs` is null until the page is in a browser.
 */
export function useRuns(userId: string): { runs: readonly Run[] | null; kept: KeptRuns | null } {
  const [runs, setRuns] = useState<readonly Run[] | null>(null);
  const kept = useMemo(
    () => (typeof window === "undefined" ? null : new KeptRuns(userId, browserStorage() ?? nowhere)),
    [userId],
  );
  const read = useCallback(() => setRuns(kept?.list() ?? []), [kept]);
  useEffect(() => {
    read();
    return onRunsChanged(read);
  }, [read]);
  return { runs, kept };
}
