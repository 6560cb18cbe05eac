"use client";

import { useContext, useSyncExternalStore } from "react";
import { SoundContext, type SoundState } from "@/app/_sound/sound-context";

/** The state of the player; null where nothing can sound. */
export function useSoundState(): SoundState | null {
  const sound = useContext(SoundContext);
  return useSyncExternalStore(
    sound?.subscribe ?? noSubscription,
    () => sound?.state() ?? null,
    () => sound?.state() ?? null,
  );
}

const noSubscription = () => () => {};
