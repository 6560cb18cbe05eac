"use client";

import { type CSSProperties, useId } from "react";
import { BeatSign, sayBeat } from "@/app/_ui/metronome-mark";
import { paces } from "./hands-address";
import { comfortableBeats } from "./passage-words";
import styles from "./tempo-slider.module.css";

/** The tempo at which the passage is judged, in the beats of its metre; how far it is comfortable is drawn on it. */
export function TempoSlider({
  pace,
  beat,
  perMinute,
  comfortablePace,
  isEasyWhenShared,
  onPace,
}: {
  pace: number;
  beat: string;
  /** The duo's tempo where the passage begins. */
  perMinute: number;
  comfortablePace: number;
  /** At this pace it is awkward as printed and easy once the other hand takes a part. */
  isEasyWhenShared: boolean;
  onPace: (pace: number) => void;
}) {
  const id = useId();
  const [least, most] = [Math.ceil(perMinute * paces.slowest), Math.floor(perMinute * paces.fastest)];
  const now = Math.round(perMinute * pace);
  const easy = comfortableBeats(comfortablePace, perMinute);
  const upTo = isEasyWhenShared
    ? "easy when the hands share it otherwise"
    : sayEasy(comfortablePace, easy, most);
  const share = Math.min(
    1,
    Math.max(0, ((easy ?? (comfortablePace > 0 ? most : least)) - least) / (most - least)),
  );
  return (
    <div className={styles.slider}>
      <label htmlFor={id} className={styles.now}>
        <BeatSign beat={beat} /> = <b>{now}</b>
      </label>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={1}
        value={Math.min(most, Math.max(least, now))}
        aria-label="Tempo"
        aria-valuetext={`${sayBeat(beat)} = ${now}, ${upTo}`}
        style={{ "--easy": share } as CSSProperties}
        onChange={(event) => {
          const beats = Number(event.target.value);
          // Back at the duo's own tempo nothing is rounded.
          onPace(beats === Math.round(perMinute) ? 1 : beats / perMinute);
        }}
      />
      <span className={styles.easy}>{upTo}</span>
    </div>
  );
}

function sayEasy(comfortablePace: number, easy: number | null, most: number): string {
  if (comfortablePace <= 0) return "not easy at any tempo";
  if (easy === null || easy >= most) return "easy for you at any of these";
  return `easy for you up to ${easy}`;
}
