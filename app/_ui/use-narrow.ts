"use client";

import { useSyncExternalStore } from "react";

/** Whether the window is at most `pixels` wide. False on the server, which cannot know. */
export function useNarrow(pixels: number): boolean {
  const query = `(max-width: ${pixels}px)`;
  return useSyncExternalStore(
    (tell) => {
      const list = window.matchMedia(query);
      list.addEventListener("change", tell);
      return () => list.removeEventListener("change", tell);
    },
    () => window.matchMedia(query).matches,
    () => false,
  );
}
