"use client";

import { useSyncExternalStore } from "react";
import { localDay } from "@/lib/practice/days";

/** So often it is looked whether another day has begun, in milliseconds. */
const lookEvery = 60_000;

/** The day by this device's clock; null on the server, which does not know it. */
export function useToday(): string | null {
  return useSyncExternalStore(
    (tell) => {
      const timer = setInterval(tell, lookEvery);
      return () => clearInterval(timer);
    },
    () => localDay(new Date()),
    () => null,
  );
}
