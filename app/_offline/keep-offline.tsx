"use client";

import { usePathname } from "next/navigation";
import { useEffect } from "react";
import { loadSynthesizer } from "@/app/_sound/load-synthesizer";
import { forgetCopies } from "./forget-here";
import { keepNewestEdition } from "./keep-edition";
import { noteKept, onPageChanged } from "./keep-soon";
import { onEngraving } from "./open-engravings";
import { askWorker, canKeep, startWorker, tellWorker } from "./tell-worker";
import { viewerMetaName } from "./viewer-meta";
import { editionOf, pieceOf, whatToKeep } from "./what-to-keep";
import { whenQuiet } from "./when-quiet";

/** So many addresses the browser remembers of a page: pictures of a long score are many. */
const rememberedAddresses = 2_000;

/** Keeps the pages this person opens on this device, for the time without a connection. Shows nothing. */
export function KeepOffline({ userId }: { userId: string }) {
  const pathname = usePathname();
  useEffect(() => {
    // In development pages change under the worker's hands.
    if (process.env.NODE_ENV !== "production" || !canKeep()) return;
    performance.setResourceTimingBufferSize(rememberedAddresses);
    void startWorker();
    const stop = new AbortController();
    const pieceId = pieceOf(pathname);
    const isOnStand = editionOf(pathname) !== null;
    const isOnDesk = pieceId !== null && !isOnStand;
    const ready = navigator.serviceWorker.ready.then(() => tellWorker({ kind: "here", userId }));
    const keep = async () => {
      if (!navigator.onLine) return;
      // Needed to sign out, and to listen, also without a connection: loaded once, they are among the files that are kept.
      const later = [!isOnStand && import("@/app/_room/left-writings"), isOnDesk && loadSynthesizer()];
      await Promise.all([ready, Promise.allSettled(later)]);
      void askWorker(whatToKeep(userId, pathname)).then(noteKept);
      // Without a connection it is kept the next time.
      if (isOnDesk) await keepNewestEdition(userId, pieceId, stop.signal).catch(() => {});
    };
    const soon = whenQuiet(() => void keep());
    soon.start();
    const stopHearing = [onEngraving(soon.start), onPageChanged(soon.start)];
    window.addEventListener("online", soon.start);
    return () => {
      window.removeEventListener("online", soon.start);
      soon.stop();
      stop.abort();
      for (const stopOne of stopHearing) stopOne();
    };
  }, [userId, pathname]);
  useEffect(() => {
    // Whoever was here before did not sign out, or their copies could not be cleared then.
    void forgetCopies((owner) => owner !== userId);
  }, [userId]);
  return <meta name={viewerMetaName} content={userId} />;
}
