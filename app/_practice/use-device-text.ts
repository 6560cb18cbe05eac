"use client";

import { useCallback, useState, useSyncExternalStore } from "react";
import { browserStorage } from "@/app/_offline/kept-items";

const changed = "colla-text-changed";

function listen(listener: () => void): () => void {
  window.addEventListener(changed, listener);
  window.addEventListener("storage", listener);
  return () => {
    window.removeEventListener(changed, listener);
    window.removeEventListener("storage", listener);
  };
}

/**
 * A few words that stay on this device over a reload: a number that was set, a sentence that is not sent yet.
 *
 * @param name under which they are kept, with whose they are in it.
 * @returns the words, empty when there are none and on the server; where the browser keeps nothing they last as long as
 * the page.
 */
export function useDeviceText(name: string): readonly [string, (text: string) => void] {
  const key = `colla-text-${name}`;
  const [unkept, setUnkept] = useState<string | null>(null);
  const kept = useSyncExternalStore(
    listen,
    () => browserStorage().getItem(key) ?? "",
    () => "",
  );
  const set = useCallback(
    (text: string) => {
      try {
        if (text === "") browserStorage().removeItem(key);
        else browserStorage().setItem(key, text);
        setUnkept(null);
      } catch {
        setUnkept(text);
      }
      window.dispatchEvent(new Event(changed));
    },
    [key],
  );
  return [unkept ?? kept, set];
}
