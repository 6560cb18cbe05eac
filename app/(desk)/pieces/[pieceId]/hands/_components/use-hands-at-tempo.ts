"use client";

import { type Answer, useAnswer } from "@/app/_study/use-answer";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { HandsAtTempo } from "@/lib/study/hands-at-tempo";

/** Paces for which the passages are counted: from a practice tempo to a little over the duo's own. */
export const countedPaces = [0.7, 0.8, 0.9, 1, 1.1];

/** The piece under these hands at a pace, worked out in the study's worker at each step of the slider. */
export function useHandsAtTempo(hands: HandsProfile, pace: number): Answer<HandsAtTempo> {
  return useAnswer({ kind: "hands", question: { hands, pace, counted: countedPaces } });
}
