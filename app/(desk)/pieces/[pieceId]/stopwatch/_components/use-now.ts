"use client";

import { useEffect, useState } from "react";
import type { SteadyClock } from "@/app/_stopwatch/steady-clock";

/** So often a second's change is looked for, in milliseconds. */
const lookEvery = 200;

/** The time of the stopwatch's clock, for showing; taps ask the clock itself. */
export function useNow(clock: SteadyClock): number {
  const [now, setNow] = useState(() => clock.now());
  useEffect(() => {
    const look = () => setNow(clock.now());
    const timer = setInterval(look, lookEvery);
    document.addEventListener("visibilitychange", look);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", look);
    };
  }, [clock]);
  return now;
}
