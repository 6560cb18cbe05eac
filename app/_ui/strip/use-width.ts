"use client";

import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** The width of an element in whole pixels, kept up to date; null until it is in the page. */
export function useWidth<Element extends HTMLElement>(): [RefObject<Element | null>, number | null] {
  const element = useRef<Element>(null);
  const [width, setWidth] = useState<number | null>(null);
  useLayoutEffect(() => {
    const observed = element.current;
    if (!observed) return;
    setWidth(Math.floor(observed.clientWidth));
    const observer = new ResizeObserver(() => setWidth(Math.floor(observed.clientWidth)));
    observer.observe(observed);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
