"use client";

import { createContext, useContext, useSyncExternalStore } from "react";
import type { ListenManner } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import type { ScheduledPlace, ScheduledSection } from "@/lib/sound/schedule";

/** `preparing`: the sounds and the notes are being fetched. */
export type SoundStatus = "silent" | "preparing" | "playing" | "paused";

export interface SoundState {
  readonly status: SoundStatus;
  /** What is heard, would go on, or came to its end last; null when nothing was asked for, or it was stopped. */
  readonly request: ListenRequest | null;
  /** From 0 to 1 while the sounds are fetched; null otherwise. */
  readonly loaded: number | null;
  /** Of what is heard, without the count-in, at the chosen tempo. */
  readonly totalSeconds: number;
  /** "trombone played by horn": instruments that the sounds lack. */
  readonly substitutions: readonly string[];
  readonly manner: ListenManner;
  readonly isLooping: boolean;
  /** A sentence for the reader when it could not be played. */
  readonly problem: string | null;
}

/** Where the music is. It changes with each attack, not with each frame. */
export interface SoundAt extends ScheduledPlace {
  /** From the first beat of what is heard; negative while it is counted in. */
  readonly seconds: number;
  readonly section: ScheduledSection["kind"];
}

/** The one player of the page. Nothing sounds until somebody presses. */
export interface Sound {
  /** From the beginning of what is asked for; what sounded before ends. To be called from a press. */
  play(request: ListenRequest): void;
  pause(): void;
  /** Goes on where it was paused. */
  resume(): void;
  /** Ends it and forgets the request. */
  stop(): void;
  /** @param seconds from the first beat of what is heard. */
  seek(seconds: number): void;
  /**
   * Goes to a place of what is heard, the first that comes at or after it.
   *
   * @param pieceSecond seconds of the piece as written: what the strip counts in.
   * @returns false when nothing is heard or it ends before.
   */
  goTo(pieceSecond: number): boolean;
  /** Takes effect at once, at the place where the music is. */
  change(manner: Partial<ListenManner>): void;
  loop(isLooping: boolean): void;
  readonly subscribe: (listener: () => void) => () => void;
  readonly state: () => SoundState;
  readonly subscribeAt: (listener: () => void) => () => void;
  /** Null when nothing is playing or paused. */
  readonly at: () => SoundAt | null;
  /** The exact moment, for what is drawn in each frame; null when nothing sounds. */
  readonly secondsNow: () => number | null;
}

export const SoundContext = createContext<Sound | null>(null);

/** @throws Error outside a `SoundProvider`. */
export function useSoundPlayer(): Sound {
  const sound = useContext(SoundContext);
  if (sound === null) throw new Error("No sound is provided here");
  return sound;
}

/** The player with its state. Draws again when it starts, stops or is set, never while it goes on. */
export function useSound(): Sound & { readonly now: SoundState } {
  const sound = useSoundPlayer();
  const now = useSyncExternalStore(sound.subscribe, sound.state, sound.state);
  return { ...sound, now };
}

/** Where the music is; draws again at each attack, so only small components use it. Null when nothing sounds. */
export function useSoundAt(): SoundAt | null {
  const sound = useSoundPlayer();
  return useSyncExternalStore(sound.subscribeAt, sound.at, nowhere);
}

const nowhere = () => null;
