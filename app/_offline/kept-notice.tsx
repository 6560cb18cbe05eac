"use client";

import { usePathname, useRouter } from "next/navigation";
import { useCallback, useEffect, useState, useTransition } from "react";
import { Button } from "@/app/_ui/button";
import { notePageChanged } from "./keep-soon";
import { keptAtMetaName, sayKeptAt } from "./kept-at";
import styles from "./kept-notice.module.css";
import { pieceOf } from "./what-to-keep";

const askAgainMs = 5_000;
/** As in its stylesheet. */
const noticePixels = 34;

/** Says that a page comes from this device and of when it is; reads it anew when the server is back. */
export function KeptNotice() {
  const [keptAt, setKeptAt] = useState<Date | null>(null);
  const [isBack, setIsBack] = useState(false);
  const [isReading, startReading] = useTransition();
  const pathname = usePathname();
  const router = useRouter();
  useEffect(() => {
    const iso = document.querySelector<HTMLMetaElement>(`meta[name="${keptAtMetaName}"]`)?.content;
    setKeptAt(iso ? new Date(iso) : null);
  }, []);
  const isShown = keptAt !== null;
  useEffect(() => {
    if (!isShown) return;
    // Screens as high as the window leave room for it.
    const { style } = document.documentElement;
    style.setProperty("--notice-height", `${noticePixels}px`);
    return () => void style.removeProperty("--notice-height");
  }, [isShown]);
  const readAnew = useCallback(() => {
    startReading(() => {
      router.refresh();
      setKeptAt(null);
    });
    notePageChanged();
  }, [router]);
  const onBack = useCallback(() => {
    // Another build of the product loads its page whole, and what stands in a field would be gone.
    if (hasTypedText()) setIsBack(true);
    else readAnew();
  }, [readAnew]);
  useWhenBack(keptAt !== null && !isBack, onBack);
  if (keptAt === null) return null;
  const what = pieceOf(pathname) === null ? "the page" : "the piece";
  return (
    <p className={styles.notice} role="status">
      {isBack
        ? `The connection is back. This is ${what} as of ${sayKeptAt(keptAt, new Date())}. `
        : `No connection. This is ${what} as of ${sayKeptAt(keptAt, new Date())}.`}
      {isBack && (
        <Button kind="bare" small disabled={isReading} onClick={readAnew}>
          Read it anew
        </Button>
      )}
    </p>
  );
}

/** Calls `onBack` once the server answers again. */
function useWhenBack(isAway: boolean, onBack: () => void): void {
  useEffect(() => {
    if (!isAway) return;
    let isDone = false;
    const ask = async () => {
      const answer = await fetch("/api/health", { cache: "no-store" }).catch(() => null);
      if (isDone || !answer?.ok) return;
      isDone = true;
      onBack();
    };
    const timer = setInterval(ask, askAgainMs);
    window.addEventListener("online", ask);
    return () => {
      isDone = true;
      clearInterval(timer);
      window.removeEventListener("online", ask);
    };
  }, [isAway, onBack]);
}

/** Whether somebody is in the middle of writing something. */
function hasTypedText(): boolean {
  const fields = document.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>(
    "textarea, input:not([type]), input[type='text']",
  );
  return [...fields].some(({ value, defaultValue }) => value.trim() !== "" && value !== defaultValue);
}
