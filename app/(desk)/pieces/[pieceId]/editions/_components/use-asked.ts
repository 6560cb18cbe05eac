"use client";

import { usePathname, useRouter, useSearchParams } from "next/navigation";
import { useCallback, useTransition } from "react";

/** What is asked stands in the address, so that it can be kept and sent: `ask` sets or takes away some of it. */
export function useAsked(): {
  ask: (changes: Readonly<Record<string, string | null>>) => void;
  isAsking: boolean;
} {
  const router = useRouter();
  const path = usePathname();
  const params = useSearchParams();
  const [isAsking, start] = useTransition();
  const ask = useCallback(
    (changes: Readonly<Record<string, string | null>>) => {
      const asked = new URLSearchParams(params);
      for (const [name, value] of Object.entries(changes)) {
        if (value === null) asked.delete(name);
        else asked.set(name, value);
      }
      start(() => router.replace(`${path}?${asked}`, { scroll: false }));
    },
    [router, path, params],
  );
  return { ask, isAsking };
}
