"use client";

import { type RefObject, useEffect, useRef } from "react";

/** Long enough to be read at a glance, not only scrolled past. */
const dwellMs = 800;
const shares = [0, 0.25, 0.5, 0.6, 0.75, 1];

/**
 * Tells once that an element has stood on the screen for a moment, most of it or filling half the window, while the page
 * was the one in front.
 *
 * @param isWanted nothing is watched while it is false.
 */
export function useOnScreen(element: RefObject<Element | null>, isWanted: boolean, onSeen: () => void): void {
  const tell = useRef(onSeen);
  useEffect(() => {
    tell.current = onSeen;
  }, [onSeen]);
  useEffect(() => {
    const watched = element.current;
    if (!isWanted || watched === null) return;
    let isThere = false;
    let timer: ReturnType<typeof setTimeout> | null = null;
    const judge = () => {
      const isSeen = isThere && document.visibilityState === "visible";
      if (isSeen) timer ??= setTimeout(() => tell.current(), dwellMs);
      else if (timer) {
        clearTimeout(timer);
        timer = null;
      }
    };
    const observer = new IntersectionObserver(
      ([entry]) => {
        if (!entry) return;
        const fillsWindow = entry.intersectionRect.height >= window.innerHeight / 2;
        isThere = entry.isIntersecting && (entry.intersectionRatio >= 0.6 || fillsWindow);
        judge();
      },
      { threshold: shares },
    );
    observer.observe(watched);
    document.addEventListener("visibilitychange", judge);
    return () => {
      observer.disconnect();
      document.removeEventListener("visibilitychange", judge);
      if (timer) clearTimeout(timer);
    };
  }, [element, isWanted]);
}
