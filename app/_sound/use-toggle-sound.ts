"use client";

import { useCallback, useContext, useRef } from "react";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { SoundContext } from "./sound-context";

/**
 * One press: plays, pauses, goes on.
 *
 * @param ask what is played when nothing is; asked at the press.
 * @returns does nothing where nothing can sound.
 */
export function useToggleSound(ask: () => ListenRequest): () => void {
  const sound = useContext(SoundContext);
  const asking = useRef(ask);
  asking.current = ask;
  return useCallback(() => {
    if (sound === null) return;
    const { status } = sound.state();
    if (status === "playing") sound.pause();
    else if (status === "paused") sound.resume();
    else if (status === "preparing") sound.stop();
    else sound.play(asking.current());
  }, [sound]);
}
