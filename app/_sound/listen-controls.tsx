"use client";

import { useContext, useEffect, useId, useState } from "react";
import { IconButton } from "@/app/_ui/icon-button";
import { useNarrow } from "@/app/_ui/use-narrow";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { PlayerBar } from "./player-bar";
import styles from "./player-bar.module.css";
import { SoundContext, useSound } from "./sound-context";
import { useToggleSound } from "./use-toggle-sound";

/**
 * Play and pause, and what unfolds under them: how it is played. For a bar whose children may wrap.
 *
 * @param ask what is played when nothing is.
 */
export function ListenControls(props: { ask: () => ListenRequest; labelOf: (barIndex: number) => string }) {
  return useContext(SoundContext) === null ? null : <Controls {...props} />;
}

function Controls({ ask, labelOf }: { ask: () => ListenRequest; labelOf: (barIndex: number) => string }) {
  const { now } = useSound();
  const toggle = useToggleSound(ask);
  // A phone has no room for more than where the music is, unless it is asked for.
  const isNarrow = useNarrow(600);
  const [chosen, setChosen] = useState<boolean | null>(null);
  const id = useId();
  const isPlaying = now.status === "playing" || now.status === "preparing";
  const isUsed = now.status !== "silent" || now.problem !== null;
  const [wasUsed, setWasUsed] = useState(isUsed);
  // It stays when the music ends, so that nothing jumps under the finger.
  useEffect(() => {
    if (isUsed) setWasUsed(true);
  }, [isUsed]);
  const isOpen = chosen ?? (wasUsed && !isNarrow);
  const isShown = isOpen || (wasUsed && isNarrow);
  return (
    <>
      <IconButton
        icon={isPlaying ? "pause" : "play"}
        label={isPlaying ? "Pause" : "Listen"}
        aria-keyshortcuts="Space"
        className={styles.press}
        onClick={toggle}
      />
      <IconButton
        icon="settings"
        label="How it is played"
        className={styles.press}
        aria-expanded={isOpen}
        aria-controls={isOpen ? id : undefined}
        onClick={() => setChosen(!isOpen)}
      />
      {isShown && (
        <div id={id} style={{ display: "contents" }}>
          <PlayerBar isShort={!isOpen} labelOf={labelOf} />
        </div>
      )}
    </>
  );
}
