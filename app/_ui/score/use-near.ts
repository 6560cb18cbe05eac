"use client";

import { type RefObject, useEffect, useState } from "react";

/** Whether an element is in view or will be soon: within `margin` of the scrolling element `root`. */
export function useNear(
  element: RefObject<Element | null>,
  root: RefObject<Element | null>,
  margin = "1400px 0px",
): boolean {
  const [isNear, setIsNear] = useState(false);
  useEffect(() => {
    if (!element.current) return;
    const observer = new IntersectionObserver(
      (entries) => setIsNear(entries.at(-1)?.isIntersecting ?? false),
      {
        root: root.current,
        rootMargin: margin,
      },
    );
    observer.observe(element.current);
    return () => observer.disconnect();
  }, [element, root, margin]);
  return isNear;
}
