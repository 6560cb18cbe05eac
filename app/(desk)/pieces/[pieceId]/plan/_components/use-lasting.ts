"use client";

import { useEffect, useState } from "react";

/** Whether something has been so for a while: what is over at once is not worth a word on the screen. */
export function useLasting(isSo: boolean, milliseconds: number): boolean {
  const [isLong, setIsLong] = useState(false);
  useEffect(() => {
    if (!isSo) return setIsLong(false);
    const timer = setTimeout(() => setIsLong(true), milliseconds);
    return () => clearTimeout(timer);
  }, [isSo, milliseconds]);
  return isSo && isLong;
}
