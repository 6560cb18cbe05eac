"use client";

import { createContext, useContext, useSyncExternalStore } from "react";
import type { Click } from "@/lib/practice/metronome";
import type { Metronome, MetronomeState } from "./metronome";

/** The one metronome of the page; it stops when music begins, and music pauses when it begins. */
export const MetronomeContext = createContext<Metronome | null>(null);

/** @throws Error outside a `SoundProvider`. */
function useProvided(): Metronome {
  const metronome = useContext(MetronomeContext);
  if (metronome === null) throw new Error("No metronome is provided here");
  return metronome;
}

/** The metronome with its state. Draws again when it starts, stops or changes its tempo, never while it clicks on. */
export function useMetronome(): { readonly metronome: Metronome; readonly now: MetronomeState } {
  const metronome = useProvided();
  const now = useSyncExternalStore(metronome.subscribe, metronome.state, metronome.state);
  return { metronome, now };
}

/** The click that is heard; draws again at each, so only small components use it. */
export function useClick(): Click | null {
  const metronome = useProvided();
  return useSyncExternalStore(metronome.subscribeClick, metronome.click, nothing);
}

const nothing = () => null;
