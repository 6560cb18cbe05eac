"use client";

import { useCallback, useEffect, useMemo, useState } from "react";
import type { KeptItems } from "./kept-items";

/**
 * What one person keeps on this device, read again whenever it changes.
 *
 * @param open the same function at each drawing.
 * @returns `items` is null until the page is in a browser.
 */
export function useKeptItems<T>(
  open: (userId: string) => KeptItems<T>,
  userId: string,
): { items: readonly T[] | null; kept: KeptItems<T> | null } {
  const [items, setItems] = useState<readonly T[] | null>(null);
  const kept = useMemo(() => (typeof window === "undefined" ? null : open(userId)), [open, userId]);
  const read = useCallback(() => setItems(kept?.list() ?? []), [kept]);
  useEffect(() => {
    read();
    return kept?.onChanged(read);
  }, [kept, read]);
  return { items, kept };
}
