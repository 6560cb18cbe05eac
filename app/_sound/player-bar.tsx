"use client";

import { classNames } from "@/app/_ui/class-names";
import { IconButton } from "@/app/_ui/icon-button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { sayClock } from "@/lib/score/say-clock";
import { tempoPercents } from "@/lib/sound/listen-manner";
import styles from "./player-bar.module.css";
import { saySection } from "./say-place";
import { useSound, useSoundAt } from "./sound-context";
import { useSecondsNow } from "./use-seconds-now";

/** Percent from one step of the tempo to the next. */
const tempoStep = 5;

/**
 * How it is played, and where the music is: tempo, parts, count-in, again and again. What starts it stands elsewhere.
 *
 * @param isShort where the music is, and nothing else.
 * @param labelOf the printed number of a bar, by index.
 */
export function PlayerBar({ isShort, labelOf }: { isShort: boolean; labelOf: (barIndex: number) => string }) {
  const { now, stop } = useSound();
  const { status, problem, substitutions } = now;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div
      className={classNames(styles.bar, isShort && styles.short)}
      role="group"
      aria-label="How it is played"
    >
      <IconButton
        icon="stop"
        label="Stop"
        className={styles.press}
        disabled={status === "silent"}
        onClick={stop}
      />
      <Where labelOf={labelOf} />
      {!isShort && <Manner />}
      {!isShort && substitutions.length > 0 && (
        <p className={styles.note}>{capital(substitutions.join(", "))}.</p>
      )}
      {problem && <SayProblem>{problem}</SayProblem>}
    </div>
  );
}

function Manner() {
  const { now, change, loop } = useSound();
  const { manner, isLooping } = now;
  return (
    <>
      <div className={styles.tempo}>
        <span aria-hidden="true">
          Tempo <b>{manner.tempoPercent} %</b>
        </span>
        <input
          type="range"
          min={tempoPercents.slowest}
          max={tempoPercents.fastest}
          step={tempoStep}
          value={manner.tempoPercent}
          aria-label="Tempo"
          aria-valuetext={`${manner.tempoPercent} percent of your tempo`}
          onChange={(event) => change({ tempoPercent: event.target.valueAsNumber })}
        />
      </div>
      <div className={styles.switches}>
        <Switch label="Solo" isOn={manner.hasSolo} onChange={(hasSolo) => change({ hasSolo })} />
        <Switch
          label="Piano"
          isOn={manner.hasAccompaniment}
          onChange={(hasAccompaniment) => change({ hasAccompaniment })}
        />
        <Switch label="Count-in" isOn={manner.hasCountIn} onChange={(hasCountIn) => change({ hasCountIn })} />
        <Switch label="Again and again" isOn={isLooping} onChange={loop} />
      </div>
    </>
  );
}

function Switch({
  label,
  isOn,
  onChange,
}: {
  label: string;
  isOn: boolean;
  onChange: (isOn: boolean) => void;
}) {
  return (
    <button type="button" aria-pressed={isOn} onClick={() => onChange(!isOn)}>
      {label}
    </button>
  );
}

/** "bar 96 · 3:12 of 8:40". */
function Where({ labelOf }: { labelOf: (barIndex: number) => string }) {
  const { now } = useSound();
  const at = useSoundAt();
  const seconds = useSecondsNow();
  if (now.status === "preparing")
    return (
      <div className={styles.where}>
        <Progress words="Fetching the sounds." done={now.loaded} />
      </div>
    );
  if (at === null || seconds === null)
    return <p className={classNames(styles.where, styles.idle)}>{sayIdle(now.totalSeconds)}</p>;
  const section = saySection(at.section, now);
  return (
    <p className={styles.where}>
      <b>bar {labelOf(at.barIndex)}</b>
      {section && <span> · {section}</span>}
      <span className={styles.clock}>
        {" · "}
        {seconds < 0 ? "counting in" : `${sayClock(seconds)} of ${sayClock(now.totalSeconds)}`}
      </span>
    </p>
  );
}

const sayIdle = (totalSeconds: number) =>
  totalSeconds > 0 ? `ended after ${sayClock(totalSeconds)}` : "silent";

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
