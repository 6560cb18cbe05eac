"use client";

import { useEffect, useState } from "react";

/** Whether the screen is kept awake; null while nothing is known yet. */
export function useWakeLock(): boolean | null {
  const [isAwake, setIsAwake] = useState<boolean | null>(null);
  useEffect(() => {
    if (!("wakeLock" in navigator)) return setIsAwake(false);
    let lock: WakeLockSentinel | null = null;
    let hasLeft = false;
    const keepAwake = async () => {
      // The browser lets go of it whenever the page is not seen.
      if (document.visibilityState !== "visible" || (lock && !lock.released)) return;
      try {
        const taken = await navigator.wakeLock.request("screen");
        if (hasLeft) return void taken.release();
        lock = taken;
        setIsAwake(true);
      } catch {
        // Saving power, or not allowed here: the reader is told what to do instead.
        if (!hasLeft) setIsAwake(false);
      }
    };
    void keepAwake();
    document.addEventListener("visibilitychange", keepAwake);
    return () => {
      hasLeft = true;
      document.removeEventListener("visibilitychange", keepAwake);
      void lock?.release();
    };
  }, []);
  return isAwake;
}
