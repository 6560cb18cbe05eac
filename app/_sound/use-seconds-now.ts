"use client";

import { useEffect, useState } from "react";
import { useSound } from "./sound-context";

/** How often the clock is looked at, in milliseconds. */
const lookMs = 200;

/** Whole seconds of what is heard, rounded down; null while nothing is. Draws again once a second. */
export function useSecondsNow(): number | null {
  const { now, secondsNow, at } = useSound();
  const { status } = now;
  const [seconds, setSeconds] = useState<number | null>(null);
  useEffect(() => {
    const look = () => {
      const heard = status === "paused" ? (at()?.seconds ?? null) : secondsNow();
      setSeconds(heard === null ? null : Math.floor(heard));
    };
    look();
    if (status !== "playing") return;
    const timer = setInterval(look, lookMs);
    return () => clearInterval(timer);
  }, [status, secondsNow, at]);
  return seconds;
}
