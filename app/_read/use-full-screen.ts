"use client";

import { useCallback, useEffect, useState } from "react";

/** Whether the page fills the screen, and how to change that; null where the browser cannot. */
export function useFullScreen(): { readonly isFull: boolean; readonly toggle: () => void } | null {
  const [isFull, setIsFull] = useState<boolean | null>(null);
  useEffect(() => {
    if (!document.fullscreenEnabled) return;
    const look = () => setIsFull(document.fullscreenElement !== null);
    look();
    document.addEventListener("fullscreenchange", look);
    return () => {
      document.removeEventListener("fullscreenchange", look);
      if (document.fullscreenElement) void document.exitFullscreen().catch(() => {});
    };
  }, []);
  const toggle = useCallback(() => {
    // Refused by the browser, it stays as it is.
    const asked = document.fullscreenElement
      ? document.exitFullscreen()
      : document.documentElement.requestFullscreen();
    asked.catch(() => {});
  }, []);
  return isFull === null ? null : { isFull, toggle };
}
