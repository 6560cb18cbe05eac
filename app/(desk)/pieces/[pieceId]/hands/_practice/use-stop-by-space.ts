"use client";

import { useEffect, useRef } from "react";

const typing = "input:not([type=range]):not([type=checkbox]), textarea, select, [contenteditable=true]";

/**
 * Space stops what sounds, wherever the focus is but in a field that is typed in.
 *
 * @param stop null while nothing sounds.
 */
export function useStopBySpace(stop: (() => void) | null): void {
  const now = useRef(stop);
  now.current = stop;
  const isOn = stop !== null;
  useEffect(() => {
    if (!isOn) return;
    const isMeant = (event: KeyboardEvent) =>
      event.key === " " && !(event.target instanceof Element && event.target.matches(typing));
    // Before the button under the focus or the strip takes it for itself.
    const press = (event: KeyboardEvent) => {
      if (!isMeant(event)) return;
      event.preventDefault();
      event.stopPropagation();
      if (!event.repeat) now.current?.();
    };
    window.addEventListener("keydown", press, { capture: true });
    return () => window.removeEventListener("keydown", press, { capture: true });
  }, [isOn]);
}
