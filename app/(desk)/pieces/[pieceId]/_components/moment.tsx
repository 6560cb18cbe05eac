"use client";

import { useSyncExternalStore } from "react";
import { sayMoment, sayTime } from "./say-moment";

const neverChanges = () => () => {};

/** The reader's own clock once the page is in the browser; UTC before, so that the server and the browser write the same. */
export function useZone(): string | undefined {
  return useSyncExternalStore(
    neverChanges,
    () => undefined,
    () => "UTC",
  );
}

/** A moment by the reader's own clock. @param isTimeOnly its day stands over it. */
export function Moment({ iso, isTimeOnly = false }: { iso: string; isTimeOnly?: boolean }) {
  const zone = useZone();
  return <time dateTime={iso}>{isTimeOnly ? sayTime(iso, zone) : sayMoment(iso, new Date(), zone)}</time>;
}
