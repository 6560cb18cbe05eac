"use client";

import { useEffect } from "react";
import { useMetronome } from "@/app/_sound/metronome-context";
import { Button } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { clickPattern } from "@/lib/practice/metronome";
import { type PracticePassage, passageKey } from "@/lib/practice/practice-passage";
import { BeatRow } from "./beat-row";
import styles from "./sound-at-tempo.module.css";
import { usePracticePlay } from "./use-practice-play";
import { useSoundState } from "./use-sound-state";
import { useStopBySpace } from "./use-stop-by-space";

/** The metronome and the passage itself at the tempo that is tried; Space stops either. */
export function SoundAtTempo({
  passage,
  rewrites,
  perMinute,
}: {
  passage: PracticePassage;
  rewrites: readonly RewriteTerms[];
  perMinute: number;
}) {
  const { metronome, now } = useMetronome();
  const sound = useSoundState();
  const play = usePracticePlay(passage, rewrites);
  const name = passageKey(passage);
  const isClicking = now.beating?.name === name;
  const isPlaying = play?.isOn ?? false;
  const pattern = clickPattern(passage.metre, passage.tempo);
  const tempo = { beat: passage.tempo.beat, perMinute };
  const stop = isClicking ? metronome.stop : isPlaying ? (play?.stop ?? null) : null;
  useStopBySpace(stop);
  // Another rung while it sounds is another tempo at once.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when the rung changes
  useEffect(() => {
    if (isClicking) metronome.change(tempo);
    else if (isPlaying) play?.setTempo(perMinute);
  }, [perMinute]);
  // Closed, the passage falls silent.
  useEffect(
    () => () => {
      if (metronome.state().beating?.name === name) metronome.stop();
    },
    [metronome, name],
  );
  return (
    <div className={styles.sound}>
      <Button
        aria-pressed={isClicking}
        onClick={() => (isClicking ? metronome.stop() : metronome.start({ name, pattern, tempo }))}
      >
        <Icon name={isClicking ? "stop" : "clock"} /> {isClicking ? "Stop the metronome" : "Metronome"}
      </Button>
      {play && (
        <Button onClick={() => play.toggle(perMinute)}>
          <Icon name={isPlaying ? "stop" : "play"} /> {isPlaying ? "Stop" : `Listen at ${perMinute}`}
        </Button>
      )}
      <BeatRow pattern={pattern} isOn={isClicking} />
      {stop && <p className={styles.keys}>Space stops it.</p>}
      {now.problem && <SayProblem>{now.problem}</SayProblem>}
      {sound?.problem && <SayProblem>{sound.problem}</SayProblem>}
    </div>
  );
}
