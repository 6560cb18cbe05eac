"use client";

import { useEffect, useState } from "react";
import { SayNote } from "@/app/_ui/say";
import type { EditionOnStand } from "./edition-on-stand";
import { findKept, type KeptOfProgramme } from "./find-kept";
import { keepEdition } from "./keep-edition";
import { onKept } from "./keep-soon";
import { programmePage } from "./programme-page";
import { sayOnDevice } from "./say-on-device";
import { canKeep } from "./tell-worker";
import { whenQuiet } from "./when-quiet";

/** An edition that is played, with the title of its piece. */
export interface PlayedEdition extends EditionOnStand {
  readonly title: string;
}

/**
 * Puts every edition of a programme by, as this person reads it, and says how much of it opens without a connection: before
 * one goes on stage with the tablet.
 */
export function OnThisDevice({
  userId,
  programmeId,
  editions,
}: {
  userId: string;
  programmeId: string;
  /** Each once. */
  editions: readonly PlayedEdition[];
}) {
  const [kept, setKept] = useState<KeptOfProgramme | null>(null);
  const [isKeeping, setIsKeeping] = useState(false);
  // The page is read again with each change of the programme: what is on it is the same as long as this is.
  const played = JSON.stringify(editions);
  useEffect(() => {
    // In development nothing is kept.
    if (process.env.NODE_ENV !== "production" || !canKeep()) return;
    const list: PlayedEdition[] = JSON.parse(played);
    const stop = new AbortController();
    const look = async () => {
      // A browser that lets nobody look keeps nothing.
      const found = await findKept(userId, programmePage(programmeId), list).catch(() => nothing);
      if (!stop.signal.aborted) setKept(found);
    };
    const keep = async () => {
      setIsKeeping(navigator.onLine);
      if (!navigator.onLine) return;
      // One that does not come is named, and tried again with the next connection.
      for (const edition of list) await keepEdition(userId, edition, stop.signal).catch(() => {});
      if (!stop.signal.aborted) setIsKeeping(false);
    };
    const soon = whenQuiet(() => void keep());
    const stopHearing = onKept(() => void look());
    window.addEventListener("online", soon.start);
    // Until the page is quiet nothing is put by yet, and soon it is.
    setIsKeeping(navigator.onLine);
    void look();
    soon.start();
    return () => {
      window.removeEventListener("online", soon.start);
      stopHearing();
      soon.stop();
      stop.abort();
    };
  }, [userId, programmeId, played]);
  if (kept === null || editions.length === 0) return null;
  return (
    <SayNote>
      <p role="status">{sayOnDevice(kept, editions, isKeeping)}</p>
    </SayNote>
  );
}

const nothing: KeptOfProgramme = { isPageKept: false, editions: [] };
