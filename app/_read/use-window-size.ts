"use client";

import { useEffect, useState } from "react";
import type { WindowSize } from "./tap-zone";

/** The size of the window in CSS pixels; null until it is known. */
export function useWindowSize(): WindowSize | null {
  const [size, setSize] = useState<WindowSize | null>(null);
  useEffect(() => {
    const measure = () => setSize({ width: window.innerWidth, height: window.innerHeight });
    measure();
    window.addEventListener("resize", measure);
    return () => window.removeEventListener("resize", measure);
  }, []);
  return size;
}
