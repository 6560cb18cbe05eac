"use client";

import { useContext, useMemo } from "react";
import type { Playing } from "@/app/_ui/playing";
import { SoundContext } from "./sound-context";

/** Where the music is, for strip and score; null where nothing can sound. The same at each drawing. */
export function usePlaying(): Playing | null {
  const sound = useContext(SoundContext);
  return useMemo(() => sound && { subscribe: sound.subscribeAt, at: sound.at }, [sound]);
}
