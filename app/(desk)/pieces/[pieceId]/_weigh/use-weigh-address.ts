"use client";

import { useSearchParams } from "next/navigation";
import { useEffect, useRef } from "react";
import { readPicks, type WeighPick, writePick } from "./weigh-picks";

const parameter = "weigh";

/**
 * `?weigh=a,b`: what is weighed stands in the address, so that the other can open the same. Ids of proposals, or two ends
 * for a cut that nobody proposed.
 */
export function useWeighAddress(
  isWeighing: boolean,
  picks: readonly WeighPick[],
  open: (picks: readonly WeighPick[]) => void,
): void {
  const asked = useSearchParams().get(parameter);
  const now = isWeighing ? picks.map(writePick).join(",") : null;
  const written = useRef<string | null>(null);
  const tell = useRef(open);
  tell.current = open;
  useEffect(() => {
    if (asked === null || asked === written.current) return;
    const found = readPicks(asked);
    if (found.length === 2) tell.current(found);
  }, [asked]);
  useEffect(() => {
    // What the address asked for is not open yet at the first look.
    if (now === written.current) return;
    written.current = now;
    const url = new URL(window.location.href);
    if (now === null) url.searchParams.delete(parameter);
    else url.searchParams.set(parameter, now);
    window.history.replaceState(window.history.state, "", url);
  }, [now]);
}
