"use client";

import { useRouter } from "next/navigation";
import { useCallback, useEffect } from "react";
import { useKeptItems } from "@/app/_offline/use-kept-items";
import { onWaking } from "@/app/_room/on-waking";
import { keptPractice } from "./kept-practice";
import { practiceActions } from "./practice-actions";
import { isWaiting, sendPractice } from "./send-practice";

/** So often it is tried again while something waits, in milliseconds. */
const tryEvery = 20_000;

/** What was logged without a connection goes by itself, from whichever screen comes first. Shows nothing: the log does. */
export function UnsentPractice({ userId }: { userId: string }) {
  const { items, kept } = useKeptItems(keptPractice, userId);
  const router = useRouter();
  const mustSend = items?.some(isWaiting) ?? false;
  const send = useCallback(async () => {
    if (kept && (await sendPractice(kept, practiceActions))) router.refresh();
  }, [kept, router]);
  useEffect(() => {
    if (!mustSend) return;
    void send();
    const timer = setInterval(() => void send(), tryEvery);
    const stopHearing = onWaking(() => void send());
    return () => {
      clearInterval(timer);
      stopHearing();
    };
  }, [mustSend, send]);
  return null;
}
