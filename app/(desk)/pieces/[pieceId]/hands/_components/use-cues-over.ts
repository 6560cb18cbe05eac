"use client";

import { useRoomHere } from "../../_components/room-provider";
import type { Bars } from "./passage-state";

/** The words of the cues that the players wrote over some bars, each once. */
export function useCuesOver({ fromBar, toBar }: Bars): readonly string[] {
  const { cues } = useRoomHere();
  const here = cues.filter(({ at }) => at.barIndex >= fromBar && at.barIndex <= toBar);
  return [...new Set(here.map(({ text }) => text))];
}
