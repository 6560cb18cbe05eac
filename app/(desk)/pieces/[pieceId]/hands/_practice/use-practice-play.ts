"use client";

import { useContext, useEffect, useRef } from "react";
import { SoundContext, type SoundState } from "@/app/_sound/sound-context";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { noQuarters } from "@/lib/score/quarters";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { useSoundState } from "./use-sound-state";

export interface PracticePlay {
  readonly isOn: boolean;
  /** Plays the passage again and again at a tempo, or stops it. To be called from a press. */
  toggle(perMinute: number): void;
  /** Another tempo while it plays. */
  setTempo(perMinute: number): void;
  stop(): void;
}

/** Hearing a passage at the tempo of a rung; how the player was set before comes back afterwards. Null without a player. */
export function usePracticePlay(
  passage: PracticePassage,
  rewrites: readonly RewriteTerms[],
): PracticePlay | null {
  const sound = useContext(SoundContext);
  const now = useSoundState();
  const before = useRef<Pick<SoundState, "manner" | "isLooping"> | null>(null);
  const request = requestOf(passage, rewrites);
  const isMine = now !== null && JSON.stringify(now.request) === JSON.stringify(request);
  const isOn = isMine && now.status !== "silent";
  useEffect(() => {
    if (isOn || before.current === null || !sound) return;
    const { manner, isLooping } = before.current;
    before.current = null;
    sound.change({ tempoPercent: manner.tempoPercent });
    sound.loop(isLooping);
  }, [isOn, sound]);
  if (!sound || now === null) return null;
  const setTempo = (perMinute: number) =>
    sound.change({ tempoPercent: (100 * perMinute) / passage.tempo.perMinute });
  return {
    isOn,
    setTempo,
    stop: sound.stop,
    toggle: (perMinute) => {
      if (isOn) {
        sound.stop();
        return;
      }
      before.current = { manner: now.manner, isLooping: now.isLooping };
      setTempo(perMinute);
      sound.loop(true);
      sound.play(request);
    },
  };
}

function requestOf(
  { fromBar, toBar, end }: PracticePassage,
  rewrites: readonly RewriteTerms[],
): ListenRequest {
  const here = rewrites.filter((terms) => terms.from.barIndex <= toBar && terms.to.barIndex >= fromBar);
  return {
    ...{ kind: "span", from: { barIndex: fromBar, offset: noQuarters }, to: end, cuts: [] },
    ...(here.length > 0 && { rewrites: here }),
  };
}
